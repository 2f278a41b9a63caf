// The texts of the page in its language. One set of files per language, all of one shape.
import { en } from './en'
import { es } from './es'
import { fr } from './fr'
import { language, type Language } from './language'
import { pt } from './pt'
import type { Words } from './shape'

export type { Words }
export const everyWords: Record<Language, Words> = { en, es, fr, pt }
export const words: Words = everyWords[language]
