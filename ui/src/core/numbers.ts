// Numbers as the trade says them, written as the language of the page writes them.
import { words } from '../words'

const written = (least: number, most: number) =>
  new Intl.NumberFormat(words.locale, {
    minimumFractionDigits: least,
    maximumFractionDigits: most,
    useGrouping: false,
    signDisplay: 'negative'
  })
const kOne = written(0, 1)
const kTenth = written(1, 1)
const kHundredth = written(0, 2)

export const hours = (minutes: number): string => {
  const whole = Math.round(minutes / 5) * 5
  const h = Math.floor(whole / 60)
  const m = String(whole % 60).padStart(2, '0')
  return h === 0 ? `${whole} min` : `${h} h ${m}`
}
export const clockMinute = (minute: number): string => {
  const whole = Math.round(minute)
  return `${Math.floor(whole / 60)}:${String(Math.abs(whole) % 60).padStart(2, '0')}`
}
/** A whole number of grams, or one decimal where the scale has it. */
export const grams = (g: number): string => kOne.format(g)
export const level = (value: number): string => kOne.format(value)
export const cm = (value: number): string => kOne.format(value)
/** One decimal always, as a percentage or an average has it. */
export const tenth = (value: number): string => kTenth.format(value)
/** As it was typed, to the hundredth. */
export const plain = (value: number): string => kHundredth.format(value)
/** Whole money; what is no currency code of ISO 4217 stands behind the sum as the salon wrote it. */
export const money = (value: number, currency = ''): string => {
  const whole: Intl.NumberFormatOptions = { maximumFractionDigits: 0, signDisplay: 'negative' }
  const sum = (more: Intl.NumberFormatOptions = {}) =>
    new Intl.NumberFormat(words.locale, { ...whole, ...more }).format(value)
  if (!currency) return sum()
  if (!/^[A-Z]{3}$/.test(currency)) return `${sum()} ${currency}`
  return sum({ style: 'currency', currency, minimumFractionDigits: 0 })
}
/** Words of a colour without the level that stands beside them anyway. */
export const bareWords = (said: string | undefined): string =>
  (said ?? '').replace(/^(level|nivel|hauteur|nível) [\d.,]+, /, '')
/** In ten: 0.31 → 3. */
export const inTen = (share: number): number => Math.round(share * 10)
export const clamp = (x: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, x))
/** To the nearest step, without the dust of binary fractions. */
export const toStep = (x: number, step: number): number =>
  Number((Math.round(x / step) * step).toFixed(4))
