export const PLAN_FORMAT = "linepoise-plan/1";
