import type { Demand } from "../../time/demand.js";
import { decimal } from "../../time/show-values.js";

export const demandWords = ({ units, period }: Demand): string => `${decimal(units, 6)} per ${period}`;
