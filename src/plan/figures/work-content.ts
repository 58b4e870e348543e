import { add, multiply, type Ratio, ZERO } from "../../time/ratio.js";
import type { Post } from "../post.js";

/** Person-time worked at a post for one unit of the line = person-time of one unit that comes x share, in microseconds. */
export const workedAt = ({ personTime: ofUnit, share }: Post): Ratio => multiply(ofUnit, share);

/** Work content = person-time of one unit of the line over all posts, in microseconds. */
export const workContent = (posts: readonly Post[]): Ratio => posts.map(workedAt).reduce(add, ZERO);
