// The natural levels and the looks, which do not change while the page is open.
import type { LevelWord, LookWord } from '../core/types'
import { session } from './session.svelte'

class Levels {
  all = $state.raw<LevelWord[]>([])
  looks = $state.raw<LookWord[]>([])

  async load(): Promise<void> {
    if (this.all.length && this.looks.length) return
    const [levels, looks] = await Promise.all([
      session.api.get<{ levels: LevelWord[] }>('/levels'),
      session.api.get<{ looks: LookWord[] }>('/looks')
    ])
    this.all = levels.levels
    this.looks = looks.looks
  }
  nearest(level: number | undefined): LevelWord | undefined {
    if (level === undefined) return undefined
    return this.all.reduce<LevelWord | undefined>(
      (best, one) =>
        !best || Math.abs(one.level - level) < Math.abs(best.level - level) ? one : best,
      undefined
    )
  }
  wordOf(level: number): string {
    return this.nearest(Math.round(level))?.words ?? ''
  }
}
export const levels = new Levels()
