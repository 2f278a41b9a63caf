// The natural levels and the looks, which do not change while the page is open.
import { levelOf } from '../core/case'
import { level } from '../core/numbers'
import { ServerError } from '../core/api'
import type { Case, CaseZone, Lab, LevelWord, LookWord } from '../core/types'
import { session } from './session.svelte'

const keyOf = (lab: Lab): string => lab.join(',')

class Levels {
  all = $state.raw<LevelWord[]>([])
  looks = $state.raw<LookWord[]>([])
  /** Colours that a photo or an instrument read, as the server names them. */
  private named = $state.raw<Record<string, LevelWord>>({})
  private asked = new Set<string>()

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
  /** Asks what the colours of a head are called, where they were read as colours. */
  async name(head: Case): Promise<void> {
    for (const zone of head.zones) {
      const lab = zone.readings[0]?.lab
      if (!lab || this.asked.has(keyOf(lab))) continue
      this.asked.add(keyOf(lab))
      try {
        const named = await session.api.get<LevelWord>(`/colours?lab=${keyOf(lab)}`)
        this.named = { ...this.named, [keyOf(lab)]: named }
      } catch (fault) {
        if (!(fault instanceof ServerError)) throw fault
        this.asked.delete(keyOf(lab))
      }
    }
  }
  /** What a zone was read as: by eye the natural colour of its level, else the colour itself. */
  of(zone: CaseZone | undefined): LevelWord | undefined {
    if (!zone) return undefined
    const lab = zone.readings[0]?.lab
    return lab ? this.named[keyOf(lab)] : this.nearest(levelOf(zone))
  }
  levelOf(zone: CaseZone): number | undefined {
    return levelOf(zone) ?? this.of(zone)?.level
  }
  /** As it is written; nothing while a colour has no name yet. */
  saidOf(zone: CaseZone): string {
    const at = this.levelOf(zone)
    return at === undefined ? '' : level(at)
  }
  wordOf(level: number): string {
    return this.nearest(Math.round(level))?.words ?? ''
  }
}
export const levels = new Levels()
