import demo from "../../templates/demo.json";
import { parseDemo } from "./template-schema";

/** The invented shop that the sheets are shown with. */
export const DEMO = parseDemo(demo);
