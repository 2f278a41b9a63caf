// Every visit under way, whoever looks at it: their deadlines, and the sounds they make.
import { untrack } from 'svelte'
import { alarmOf, checksDue, loudness, newlyDue, type Alarm } from '../core/escalation'
import type { Run, VisitRow } from '../core/types'
import { session } from './session.svelte'
import { sound } from './sound.svelte'

export interface Running { row: VisitRow; run: Run }

class Runs {
  all = $state.raw<Running[]>([])
  private chimed = new Set<string>()
  private heard = new Map<string, number>()

  alarms = $derived.by(() => {
    const list: (Alarm & { name: string })[] = []
    for (const { row, run } of this.all) {
      for (const zone of run.zones) {
        const alarm = alarmOf(row.id, zone, session.now)
        if (alarm) list.push({ ...alarm, name: row.name ?? '' })
      }
    }
    return list
  })

  load(): Promise<void> {
    return untrack(() => this.once())
  }
  private async once(): Promise<void> {
    try {
      const { visits } = await session.api.get<{ visits: VisitRow[] }>(`/visits?day=${session.today}`)
      const under = visits.filter((row) => row.stage === 'under way')
      const sent = Date.now()
      const runs = await Promise.all(
        under.map((row) =>
          session.api.get<Run>(`/visits/${row.id}/run`).catch(() => null)
        )
      )
      this.all = under.flatMap((row, i) => {
        const run = runs[i]
        if (!run) return []
        session.heard(run.now, sent)
        return run.started_at ? [{ row, run }] : []
      })
    } catch {
      return // the notice that the server is away stands already
    }
  }

  /** Sounds what has come due since the last time; mine: the visit open on this tablet. */
  ring(mine: string): void {
    for (const alarm of this.alarms) {
      const loud = loudness(alarm, alarm.visit === mine)
      if (loud <= 0 || !newlyDue(alarm, this.heard)) continue
      if (alarm.level < 2) sound.quiet()
      else sound.alert(loud)
    }
    for (const { row, run } of this.all) {
      if (row.id !== mine) continue
      if (checksDue(row.id, run.zones, session.now, this.chimed).length) sound.chime()
    }
  }

  async seen(visit: string, zone: string): Promise<void> {
    await session.api.post(`/visits/${visit}/seen`, { zone })
    session.bump('visit', visit)
    await this.load()
  }
}
export const runs = new Runs()
