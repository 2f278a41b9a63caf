// Water makes ghost touches. A new touch within 150 ms of another, elsewhere, does not count.
// (Our rule; no source.)
export const kGhostMs = 150
export const kElsewherePx = 40

export class GhostTouches {
  private last: { at: number; x: number; y: number } | null = null
  private ghost: { x: number; y: number } | null = null

  touch(at: number, x: number, y: number): void {
    const last = this.last
    const near = last && Math.hypot(x - last.x, y - last.y) < kElsewherePx
    this.ghost = last && !near && at - last.at < kGhostMs ? { x, y } : null
    if (!this.ghost) this.last = { at, x, y }
  }
  /** Whether a click at this place comes from the touch that does not count. */
  isGhost(x: number, y: number): boolean {
    if (!this.ghost) return false
    const is = Math.hypot(x - this.ghost.x, y - this.ghost.y) < kElsewherePx
    if (is) this.ghost = null
    return is
  }
}
