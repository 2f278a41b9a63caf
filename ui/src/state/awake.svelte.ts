// Keeps the screen on while a visit runs. The lock is advisory: it can be refused, lost, or not be
// there at all, so the page says when the screen may sleep. Deadlines are the server's and do not
// need it.
class Awake {
  held = $state(false)
  private wanted = false
  private lock: WakeLockSentinel | null = null

  constructor() {
    if (typeof document === 'undefined') return
    document.addEventListener('visibilitychange', () => {
      if (this.wanted && document.visibilityState === 'visible') void this.take()
    })
  }
  want(yes: boolean): void {
    this.wanted = yes
    if (yes) void this.take()
    else void this.lock?.release()
  }
  private async take(): Promise<void> {
    if (this.held || !('wakeLock' in navigator)) return
    try {
      this.lock = await navigator.wakeLock.request('screen')
      this.held = true
      this.lock.addEventListener('release', () => (this.held = false))
    } catch {
      this.held = false
    }
  }
}
export const awake = new Awake()
