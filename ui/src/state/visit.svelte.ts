// One visit as the page works on it: what the server has, and the head while it is being read.
import { newCase } from '../core/case'
import { bowlsToday, chosen } from '../core/facts'
import type { Case, Client, Fact, Plan, Visit } from '../core/types'
import { ServerError } from '../core/api'
import { Asked } from './asked.svelte'
import { session } from './session.svelte'

const draftKey = (id: string) => `huewright-head-${id}`

function savedDraft(id: string): Case | null {
  try {
    return JSON.parse(sessionStorage.getItem(draftKey(id)) ?? 'null') as Case | null
  } catch {
    return null
  }
}

export class OpenVisit {
  readonly visit: Asked<Visit>
  readonly client: Asked<Client>
  head = $state.raw<Case | null>(null)
  told = $state.raw<string[]>([])
  fromLast = $state(false)
  planning = $state(false)
  /** The head before zones were taken from a photo, until something else is entered. */
  before = $state.raw<{ head: Case; words: string } | null>(null)
  problem = $state('')

  private begun = false

  constructor(readonly id: string) {
    this.visit = new Asked<Visit>((signal) => session.api.get(`/visits/${id}`, signal))
    this.client = new Asked<Client>((signal) =>
      session.api.get(`/clients/${this.visit.value?.client ?? ''}`, signal)
    )
  }

  get known(): Visit | null {
    return this.visit.value
  }
  /** Of the stored plan; 0: none chosen. */
  get courseNumber(): number {
    const course = this.known?.plan?.course
    return typeof course === 'number' ? course : 0
  }
  get course() {
    return this.courseNumber ? chosen(this.known?.answer?.courses, this.courseNumber) : undefined
  }
  get bowls() {
    return bowlsToday(this.course)
  }
  get started(): boolean {
    return this.known?.stage === 'under way'
  }

  async load(): Promise<void> {
    await this.visit.again()
    if (this.visit.value && !this.client.value) await this.client.again()
  }

  /** The head to begin with: what was being entered, what was planned, what last time left, or new. */
  async begin(): Promise<void> {
    if (this.begun) return
    this.begun = true
    const draft = savedDraft(this.id)
    const stored = this.known?.case
    if (draft ?? stored) {
      this.head = draft ?? stored ?? null
      return
    }
    try {
      const next = await session.api.get<{ case: Case; told: string[] }>(
        `/clients/${this.known?.client ?? ''}/next?at=${encodeURIComponent(session.moment())}`
      )
      this.head = next.case
      this.told = next.told
      this.fromLast = true
    } catch (fault) {
      if (!(fault instanceof ServerError)) throw fault
      this.head = newCase()
      if (fault.status !== 409 && fault.status !== 403) this.problem = fault.message
    }
  }

  edit(head: Case): void {
    this.head = head
    this.before = null
    try {
      sessionStorage.setItem(draftKey(this.id), JSON.stringify(head))
    } catch {
      return // only a reload in mid-entry would lose it
    }
  }

  /** The same, of much at once: it can be taken back. words: what was done. */
  take(head: Case, words: string): void {
    const old = this.head
    this.edit(head)
    if (old) this.before = { head: old, words }
  }
  takeBack(): void {
    if (this.before) this.edit(this.before.head)
  }

  /** Plans the head as it is read now, and stores that; nothing is chosen yet. */
  async plan(): Promise<Plan | null> {
    const head = this.head ?? this.known?.case
    if (!head) return null
    const now = session.moment()
    const booked = this.known?.booked?.starts_at ?? now
    const later = Date.parse(booked) > session.clock.now() ? booked : now
    // The shelf and the tests are the server's to know.
    const asked: Case = { ...head, visit_at: later, asked_at: now }
    delete asked['shelf']
    return this.store({ case: asked, course: 0 })
  }
  /** Chooses a course of the plan that stands, as it was shown; from 1. */
  choose(course: number): Promise<Plan | null> {
    return this.store({ course })
  }
  private async store(asked: { case?: Case; course: number }): Promise<Plan | null> {
    this.planning = true
    this.before = null
    this.problem = ''
    try {
      const { plan } = await session.api.post<{ plan: Plan }>(`/visits/${this.id}/plan`, asked)
      sessionStorage.removeItem(draftKey(this.id))
      await this.visit.again()
      return plan
    } catch (fault) {
      if (!(fault instanceof ServerError)) throw fault
      this.problem = fault.message
      return null
    } finally {
      this.planning = false
    }
  }

  record(facts: Fact[], hold?: string): void {
    session.record(`/visits/${this.id}/facts`, facts, hold)
  }
  recordClient(facts: Fact[]): void {
    session.record(`/clients/${this.known?.client ?? ''}/facts`, facts)
  }
}
