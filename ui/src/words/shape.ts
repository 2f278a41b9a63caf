// The shape of the texts: whatever English has, every language has, with values that are no words
// left as they are. A missing or extra text is an error of types.
import type { en } from './en'
import type { enBench } from './en_bench'
import type { enChair } from './en_chair'
import type { enDesk } from './en_desk'
import type { enPhoto } from './en_photo'

type Wide<T> = T extends (...given: infer A) => string
  ? (...given: A) => string
  : T extends string
    ? string
    : T extends object
      ? { [K in keyof T]: K extends 'value' ? T[K] : Wide<T[K]> }
      : T

export type Words = Wide<typeof en>
export type BenchWords = Pick<Words, keyof typeof enBench>
export type DeskWords = Pick<Words, keyof typeof enDesk>
export type ChairWords = Pick<Words, keyof typeof enChair>
export type PhotoWords = Pick<Words, keyof typeof enPhoto>
