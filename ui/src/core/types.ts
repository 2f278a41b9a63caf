// What travels between the page and the server, as the server's OpenAPI file says it. Units are in
// the names; times are ISO 8601 with offset; a colour to be painted is a Paint and never converted.

export type Lab = [number, number, number]
export interface Paint {
  srgb: string
  p3?: [number, number, number]
  in_srgb?: boolean
  in_p3?: boolean
  words?: string
}

export type Role = 'assistant' | 'colourist' | 'owner'
export interface Device { id: string; name: string; role: Role; paired_at?: string; seen_at?: string }
export interface Salon {
  name?: string
  currency?: string
  people?: string[]
  emergency_number?: string
  chairs?: string[]
  /** What plans reckon with, as a case has it. */
  salon?: {
    hands?: number
    scale_step_g?: number
    prices?: Record<string, number>
    [key: string]: unknown
  }
  [key: string]: unknown
}
export interface Me { device: Device; salon: Salon; now: string; program: string }

export interface Fact {
  id?: string
  kind: string
  at?: string
  by?: string
  amends?: string
  body: Record<string, unknown>
}
export interface ClientRow { id: string; name: string; phone?: string; erased?: boolean }
export interface Block { kind: 'never' | 'not_until' | 'caution'; text: string; since?: string }
export interface SkinTest {
  what: string
  product: string
  shade: string
  applied_at: string
  read_at?: string
  result?: string
  valid_until?: string
  state: 'waits' | 'valid' | 'lapsed' | 'positive'
}
export interface StripPart { zone: string; from: number; to: number; paint: Paint }
export interface VisitRow {
  id: string
  client?: string
  name?: string
  starts_at: string
  minutes?: number
  stage: string
  chair?: string
  wish?: string
  strip?: StripPart[]
  price?: number | null
}
export interface Person {
  name?: string
  phone?: string
  email?: string
  age?: string
  notes?: string
  growth_cm_per_month?: number
}
export interface Client {
  id: string
  person: Person
  erased: boolean
  blocks: Block[]
  tests: SkinTest[]
  consents: { purpose: string; answer: string; at: string }[]
  visits: VisitRow[]
  facts: Fact[]
}

export type Moisture = 'dry' | 'wiped' | 'wet'
export type StretchWord = 'not_tested' | 'springs_back' | 'stays_stretched' | 'snaps' | 'gummy'
export interface CaseReading {
  by?: 'eye' | 'instrument' | 'photo'
  state?: Moisture
  level?: number
  lab?: Lab
  covariance?: number[] // of a photo's Lab, row by row
}
export interface OldColour { tone?: string; kind?: 'unknown' | 'oxidative' | 'direct' }
export interface Texture {
  relaxed_hydroxide?: boolean
  relaxed_other?: boolean
  permed?: boolean
  texturised?: boolean
  smoothed?: boolean
  days_since_relaxer_or_smoothing?: number
}
export interface ZoneFacts {
  metal_or_henna_suspected?: boolean
  mineral_build_up?: boolean
  incompatibility_test?: 'not_done' | 'clear' | 'positive'
  strand_test?: 'none' | 'passed' | 'failed'
  texture?: Texture
  stretch?: { worst?: StretchWord; strands?: number; places?: number }
  thin_edges?: boolean
  braids_just_taken_down?: boolean
  low_elasticity?: boolean
}
export interface CaseZone {
  name: string
  section?: string
  from_cm: number
  to_cm: number
  readings: CaseReading[]
  porosity?: 'low' | 'usual' | 'high' | 'extreme'
  white_percent?: number
  past?: {
    lightened?: number
    permanent_colours?: number
    demi_colours?: number
    old_colour?: OldColour
  }
  facts?: ZoneFacts
  lighter_levels?: number
  wished_level?: number
  target?: Target
}
export interface Target { look?: string; lab?: Lab; last_time_lab?: Lab; swatch_lab?: Lab; photo_lab?: Lab }
export interface CasePerson {
  age_years?: number
  consent?: 'not_asked' | 'given' | 'refused'
  scalp?: 'sound' | 'sensitive' | 'inflamed_or_broken'
  past_reaction_to_dye?: boolean
  black_tattoo_reaction?: boolean
  lightener_reaction?: boolean
  chemo_or_radiotherapy?: boolean
  skin_sensitising_medicine?: boolean
  pregnant_or_breastfeeding?: boolean
}
export interface Case {
  title?: string
  person?: CasePerson
  strand_um?: number
  hairs_per_cm2?: number
  shrinkage?: number
  zones: CaseZone[]
  wished_level?: number
  target?: Target
  visit_at?: string
  asked_at?: string
  limits?: { minutes?: number; money?: number; wear?: number; most_shades?: number; most_visits?: number }
  habits?: { washes_per_week?: number; weeks_to_next?: number; growth_um_per_day?: number }
  style?: { twists?: boolean; parting_cm?: number }
  [key: string]: unknown
}

export interface Finding { id: string; kind: 'never' | 'not_until' | 'caution'; text: string; source?: string }
export interface Look {
  level: number
  level_low: number
  level_high: number
  words: string
  paint?: Paint
  paint_low?: Paint
  paint_high?: Paint
  expected_de00?: number
  p_within_3?: number
}
export interface PlanZone {
  zone: string
  now: Look
  after_lift?: Look
  result?: Look
  left_alone?: boolean
  white_percent?: number
  wear?: number
  wear_high?: number
}
export interface BowlZone {
  zone: string
  apply_at_min: number
  applied_by_min: number
  stop_at_min: number
  hard_stop_at_min: number
  checks_at_min: number[]
  minutes: number
  minutes_low: number
  minutes_high: number
  slack_early_min: number
  slack_late_min: number
}
export interface PlanBowl {
  visit: number
  purpose: string
  fresh_mixes?: number
  bowls_mixed?: number
  items: { product: string; grams: number }[]
  peroxide_percent?: number
  zones: BowlZone[]
}
export interface Course {
  name: string
  kind: string
  sentence: string
  draft: boolean
  visits: number
  minutes: number
  minutes_low: number
  minutes_high: number
  cost_low: number
  cost_high: number
  quote?: string
  wear: number
  wear_left: number
  p_within_3?: number
  refusals: Finding[]
  cautions: Finding[]
  notes: string[]
  bowls: PlanBowl[]
  zones: PlanZone[]
  fade?: { wash: number; zone: string; paint?: Paint; de00?: number }[]
  borders?: { from: string; to: string; p_shows: number }[]
  days?: {
    minutes: number
    blocks: { block: string; words: string; starts_at_min: number; minutes: number }[]
    care?: { step: string; words: string }[]
    notes?: string[]
  }[]
}
export interface TestToMake {
  product: string
  shade: string
  why: string
  apply_by: string
  read_from: string
  only_read?: boolean
  too_late?: boolean
}
export interface Plan {
  refusals: Finding[]
  cautions: Finding[]
  courses: Course[]
  look_next: { what: string; of: string; sentence: string; narrows: number }[]
  tests_to_make: TestToMake[]
  left_out?: { name: string; refusals: Finding[] }[]
  examined?: number
  reach?: { look: string; today: boolean; expected_de00: number; paint?: Paint }[]
  whys?: string[]
  closing: string
}

export interface Chart {
  columns: number
  rows: number
  axis: { minute: number; across: number }[]
  minute: number[]
  cm: number[]
  bands: { zone: string; first_row: number; rows: number }[]
  srgb: string
  p3?: string
  level: number[]
  lines: { level: number; points: [number, number][]; label: [number, number] }[]
  steps: string[]
  events: {
    zone: string
    step: number
    on_min: number
    from_min: number
    stop_min: number
    hard_stop_min?: number | null
  }[]
  checks_min: number[]
  phases: { from_min: number; label: string }[]
  now_min?: number | null
  marks?: { week: number; words: string }[]
  words?: string
}
export interface Tiles {
  lights: string[]
  zones: { zone: string; section?: string; likely: Paint[]; lighter: Paint[]; darker: Paint[] }[]
}
export interface BowlItem {
  product: string
  words: string
  kind?: string
  grams: number
  poured: number
  to_pour: number
  next: boolean
  shelf_g?: number | null
}
export interface BowlNow {
  purpose?: string
  items: BowlItem[]
  planned_g?: number
  total_g: number
  poured_g: number
  more_g?: number
  rebalanced: boolean
  peroxide_percent: number | null
  planned_peroxide_percent?: number
  zones: { zone: string; paint: Paint }[]
}
export type RunState = 'waits' | 'on' | 'check' | 'due' | 'stop' | 'off' | 'not planned'
export interface LevelTile { level: number; paint: Paint }
export interface RunZone {
  zone: string
  section?: string
  state: RunState
  bowl?: string // its name in pours and applications: "1" is the first of the plan
  purpose?: string
  apply_at?: string
  on_at?: string
  next_check_at?: string
  stop_at?: string
  hard_stop_at?: string
  slack_min?: number
  expect?: LevelTile
  neighbours?: LevelTile[]
  seen?: boolean
}
export interface Run {
  now: string
  started_at: string | null
  ends_at?: string
  ends_low?: string
  ends_high?: string
  zones: RunZone[]
  next: { zone: string; what: string; at: string } | null
  changed: string[]
  findings?: Finding[]
  course?: number
  plan?: Plan
  blocks?: { block: string; words: string; starts_at_min: number; minutes: number }[]
}
export interface Visit {
  id: string
  client: string
  name: string
  stage: string
  booked?: { starts_at?: string; minutes?: number; chair?: string; wish?: string }
  plan: { course?: number; [key: string]: unknown } | null
  case: Case | null
  answer: Plan | null
  bowls: {
    name: string
    grams: { product: string; grams: number }[]
    left_over_g?: number
    zones?: string[]
  }[]
  price?: number | null
  paid?: number
  owed?: number
  quote?: Record<string, unknown> | null
  outcomes: { zone: string; level?: number; words?: string }[]
  aftercare?: { words?: string; refresh_on?: string; regrowth_on?: string } | null
  facts: Fact[]
}

export interface Product {
  id: string
  kind: string
  words?: string
  name?: string
  class?: string
  level?: number
  tone?: string
  peroxide_percent?: number
  for_scalp?: boolean
  developer_parts?: number
  stock_g?: number
  price_per_g?: number
  label_max_min?: number
}
export interface ShelfRow extends Product {
  grams: number
  known?: boolean
  opened_at?: string
  lot?: string
  size_g?: number
  price?: number
  paint?: Paint | null
}
export interface LookWord { name: string; words?: string; paint: Paint; spread?: number }
export interface LevelWord { level: number; words: string; paint: Paint }

/** A stretch of one colour that a photo shows. Bands named low and high hold 8 times in 10. */
export interface PhotoZone {
  from_share: number
  to_share: number
  from_cm?: number
  to_cm?: number
  lab: Lab
  sd: Lab
  spread: Lab
  words: string
  paint: Paint
  level: number
  level_low: number
  level_high: number
  reading: CaseReading
}
export interface PhotoReading {
  /** What lies in the sheet's window; none: no sheet, so words and no number. */
  chart?: { kind: string; median_de00?: number; most_de00?: number; left_out: string[] }
  length_cm?: number
  stations?: { share: number; paint: Paint }[]
  zones?: PhotoZone[]
  words?: string
  cautions: string[]
}
export interface PhotoChange {
  one_light: boolean
  changes: {
    from_share: number
    to_share: number
    from_cm?: number
    to_cm?: number
    change: Lab
    sd: Lab
    de00: number
    paint_before: Paint
    paint_after: Paint
    levels: number
    levels_low: number
    levels_high: number
  }[]
  before: PhotoReading
  after: PhotoReading
  cautions: string[]
}
