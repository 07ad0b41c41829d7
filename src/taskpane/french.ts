import { english, type Texts } from "./texts";
export const french: Texts = english;
