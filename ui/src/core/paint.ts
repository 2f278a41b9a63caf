// Puts colours of the server on the screen. The wide colours are used where the screen has them.
import type { Paint } from './types'

let wide: boolean | undefined
export function isWide(): boolean {
  wide ??=
    typeof matchMedia === 'function' &&
    matchMedia('(color-gamut: p3)').matches &&
    CSS.supports('color', 'color(display-p3 1 1 1)')
  return wide
}

export function cssColour(paint: Paint | null | undefined, wideScreen = isWide()): string {
  if (!paint) return 'transparent'
  if (wideScreen && paint.p3) {
    return `color(display-p3 ${paint.p3.map((part) => part.toFixed(4)).join(' ')})`
  }
  return paint.srgb
}

/** Whether this screen has to show something weaker than the hair. */
export function isBeyond(paint: Paint | null | undefined, wideScreen = isWide()): boolean {
  if (!paint) return false
  return wideScreen ? paint.in_p3 === false : paint.in_srgb === false
}
