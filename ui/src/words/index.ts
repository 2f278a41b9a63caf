// The language of the page. One file per language, all of the same shape as English.
import { en } from './en'
export type Words = typeof en
export const words: Words = en
