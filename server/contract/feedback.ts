/** What teacher and student add to the findings of a take: the shape that pages and prints of `src` are typed by. */
export { feedbackSchema } from "../../src/findings/feedback-schema.ts";
