import { giveBack } from "./interfaces-open.ts";

giveBack();
