// A past visit step by step, as the server tells it. Minutes from the first stroke, grams, levels.
import type { Span } from './drill'
import type { Finding, Paint } from './types'

export interface StepZone {
  zone: string
  level: Span
  found?: number
  held?: boolean
  paint?: Paint
  reader?: string
  seen?: string
}
export interface Way {
  name: string
  sentence?: string
  findings?: Finding[]
}
export interface Step {
  kind: string
  at?: string
  by?: string
  minute?: number
  bowl?: string
  zone?: string
  purpose?: string
  answer?: string
  planned_min?: number
  zones?: StepZone[]
  parts?: { product: string; called?: string; planned_g: number; poured_g: number }[]
  left_over_g?: number
  stops?: { zone: string; was_min: number; is_min: number }[]
  findings?: Finding[]
  courses?: Way[]
  left_out?: Way[]
  examined?: number
  told?: string[]
  wrote?: string
  readings: number
}
export interface Replay {
  visit: string
  starts_at: string
  steps: Step[]
}
export interface PastVisit {
  id: string
  month: string
  checks: number
  zones: { zone: string; level: number }[]
}

/** Whether the plan that stood at a step can be drawn: a course was chosen by then. */
export const hasChart = (steps: readonly Step[], at: number): boolean =>
  steps.slice(0, at + 1).some((step) => step.kind === 'planned' && Boolean(step.courses?.length))
