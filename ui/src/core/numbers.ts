// Numbers as the trade says them.
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
export const grams = (g: number): string =>
  Math.abs(g - Math.round(g)) < 0.05 ? String(Math.round(g)) : g.toFixed(1)
export const level = (value: number): string =>
  Math.abs(value - Math.round(value)) < 0.05 ? String(Math.round(value)) : value.toFixed(1)
export const money = (value: number, currency = ''): string =>
  `${Math.round(value)}${currency ? ' ' + currency : ''}`
export const cm = (value: number): string =>
  Math.abs(value - Math.round(value)) < 0.05 ? String(Math.round(value)) : value.toFixed(1)
/** Words of a colour without the level that stands beside them anyway. */
export const bareWords = (words: string | undefined): string =>
  (words ?? '').replace(/^level [\d.]+, /, '')
/** In ten: 0.31 → 3. */
export const inTen = (share: number): number => Math.round(share * 10)
export const clamp = (x: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, x))
/** To the nearest step, without the dust of binary fractions. */
export const toStep = (x: number, step: number): number =>
  Number((Math.round(x / step) * step).toFixed(4))
