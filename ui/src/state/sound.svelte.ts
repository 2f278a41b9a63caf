// Sounds are made by the browser itself; a tap has to unlock them first.
class Sound {
  ready = $state(false)
  private context: AudioContext | null = null

  /** Called from a tap; plays a short sound, so that a muted tablet is noticed at once. */
  unlock(): void {
    if (typeof AudioContext === 'undefined') return
    this.context ??= new AudioContext()
    void this.context.resume().then(() => {
      if (!this.ready) this.beep(0.1, 660, 0.12)
      this.ready = true
    })
  }
  chime(): void {
    this.beep(0.2, 660, 0.5)
    this.beep(0.15, 990, 0.7, 0.12)
  }
  quiet(): void {
    this.beep(0.12, 520, 0.4)
  }
  alert(loud: number): void {
    for (let i = 0; i < 3; ++i) this.beep(loud, 880, 0.25, i * 0.35)
  }
  private beep(loud: number, hertz: number, seconds: number, wait = 0): void {
    const context = this.context
    if (!context || context.state !== 'running') return
    const start = context.currentTime + wait
    const gain = context.createGain()
    gain.gain.setValueAtTime(0.0001, start)
    gain.gain.exponentialRampToValueAtTime(Math.max(0.001, loud), start + 0.02)
    gain.gain.exponentialRampToValueAtTime(0.0001, start + seconds)
    const tone = context.createOscillator()
    tone.frequency.value = hertz
    tone.connect(gain).connect(context.destination)
    tone.start(start)
    tone.stop(start + seconds)
  }
}
export const sound = new Sound()
