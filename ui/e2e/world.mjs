// A salon for the tests: a book of invented clients, the real program serving it, and browsers that
// were let in. Everything lives in a folder of its own that goes when the run ends.
import { execFileSync, spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium } from 'playwright-core'

export const kSizes = { phone: [390, 844], small: [320, 640], tablet: [820, 1180], wide: [1180, 820], laptop: [1440, 900] }

/** For a machine that does much else; what is waited for comes at once on a quick one. */
export const kPatienceMs = 60_000
const kRestMs = 150 // without a request: the page has all it asked for

const freePort = () =>
  new Promise((done) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address()
      probe.close(() => done(port))
    })
  })

export class World {
  /** data: where the book and what the browser keeps may lie; the system's temporary folder else. */
  constructor(program, source, data = tmpdir()) {
    this.program = program
    this.source = source
    mkdirSync(data, { recursive: true })
    this.folder = mkdtempSync(join(data, 'huewright-page-'))
    this.env = { ...process.env, HUEWRIGHT_BOOK: join(this.folder, 'book'), HUEWRIGHT_BY: 'Ines' }
    this.faults = []
    /** What scripts/bench prints, by name. */
    this.measured = {}
  }

  cli(args, input) {
    return execFileSync(this.program, args, { env: this.env, input, encoding: 'utf8' })
  }

  async open() {
    this.cli(['shelf', 'load', join(this.source, 'cases/shelves/small.json')])
    this.port = await freePort()
    await this.serve()
    this.browser = await this.launch([])
    return this
  }

  launch(more) {
    return chromium.launch({
      executablePath: process.env.HUEWRIGHT_CHROMIUM ?? '/usr/bin/chromium',
      args: ['--no-sandbox', '--autoplay-policy=no-user-gesture-required', '--enable-unsafe-swiftshader', ...more]
    })
  }

  /** Starts the server and waits for its code; the same port and book after it was killed. */
  serve() {
    this.server = spawn(this.program, ['serve', '--port', String(this.port), '--let-in', 'owner'], { env: this.env })
    return new Promise((done, failed) => {
      let said = ''
      let heard = false
      const hear = (text) => {
        // The code is told once; what is printed later must not bring a used one back.
        if (heard) return
        said += text
        const code = said.match(/as owner: (\S+)/)
        if (code && /Ctrl-C/.test(said)) {
          heard = true
          this.code = code[1]
          done()
        }
      }
      this.server.stdout.on('data', hear)
      this.server.stderr.on('data', hear)
      this.server.on('exit', (status) => failed(new Error(`the server ended with ${status}: ${said}`)))
    })
  }

  /** As a power cut would. */
  async kill() {
    const gone = new Promise((done) => this.server.once('exit', done))
    this.server.removeAllListeners('exit')
    this.server.once('exit', () => {})
    const ended = new Promise((done) => this.server.once('close', done))
    this.server.kill('SIGKILL')
    await Promise.race([gone, ended])
  }

  get base() {
    return `http://127.0.0.1:${this.port}`
  }

  /** A device that was let in by a code, and a page on it whose faults are kept. */
  async device(name, role = 'owner', size = kSizes.wide, touch = false) {
    const code = role === 'owner' && this.code ? this.code : (await this.owner.api('POST', '/pairings', { role })).code
    if (code === this.code) this.code = null
    const context = await this.browser.newContext({
      viewport: { width: size[0], height: size[1] },
      hasTouch: touch,
      reducedMotion: 'reduce'
    })
    await this.dress(context)
    const device = new Device(this, context, name)
    const answer = await context.request.post(`${this.base}/api/v1/pair`, {
      data: { code, name },
      headers: { 'Sec-Fetch-Site': 'same-origin', Origin: this.base }
    })
    if (!answer.ok()) throw new Error(`not let in: ${await answer.text()}`)
    await device.begin()
    this.owner ??= device
    return device
  }

  /** What every open page shows, where something went wrong. */
  async picture(path) {
    const pages = this.browser.contexts().flatMap((context) => context.pages())
    for (const [i, page] of pages.entries()) {
      await page.screenshot({ path: `${path}-${i}.png`, fullPage: true }).catch(() => {})
    }
  }

  /** The page from a folder, under the server's own policy. */
  async dress(context) {
    if (!this.pageFolder) return
    const { headers } = await fetch(`${this.base}/`)
    const policy = headers.get('content-security-policy')
    await context.route((url) => !url.pathname.startsWith('/api/'), (route) => {
      const { pathname } = new URL(route.request().url())
      const path = join(this.pageFolder, pathname === '/' ? 'index.html' : pathname)
      return route.fulfill({ path, headers: { 'content-security-policy': policy } })
    })
  }

  async close() {
    await this.browser?.close()
    this.server?.removeAllListeners('exit')
    this.server?.kill('SIGKILL')
    rmSync(this.folder, { recursive: true, force: true })
  }
}

class Device {
  constructor(world, context, name) {
    this.world = world
    this.context = context
    this.name = name
    this.taps = 0
  }

  async begin() {
    this.page = await this.context.newPage()
    this.page.setDefaultTimeout(kPatienceMs)
    this.watch()
    this.page.on('pageerror', (fault) => this.world.faults.push(`${this.name}: ${fault.message}`))
    this.page.on('console', (line) => {
      const text = line.text()
      // A breach of the content policy, or anything the page itself complains about.
      if (line.type() === 'error' && !/Failed to load resource|net::ERR/.test(text)) {
        this.world.faults.push(`${this.name}: ${text}`)
      }
    })
    this.page.on('response', (answer) => {
      const status = answer.status()
      if (status === 400 || status === 429 || status >= 500) {
        this.world.faults.push(`${this.name}: ${status} from ${answer.url()}`)
      }
    })
  }

  /** Counts what is on its way, the stream of events aside. */
  watch() {
    const away = new Set()
    this.busy_until = Date.now()
    const counts = (request) => !/\/events$/.test(request.url())
    this.page.on('request', (request) => counts(request) && away.add(request))
    const back = (request) => {
      if (away.delete(request)) this.busy_until = Date.now()
    }
    this.page.on('requestfinished', back)
    this.page.on('requestfailed', back)
    this.page.on('framenavigated', () => away.clear())
    this.away = away
  }

  /** Waits until the page has what it asked for and has painted it. */
  async settled() {
    await this.until(() => !this.away.size && Date.now() - this.busy_until > kRestMs, 'never at rest')
    await this.page.evaluate(async () => {
      await document.fonts.ready
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))
    })
  }

  async go(place) {
    await this.page.goto(`${this.world.base}/#/${place}`)
    await this.page.locator('main').waitFor()
  }

  /** Taps what has this name and counts it, no quicker than a hand: what comes sooner is a drop of water. */
  async tap(name, within = this.page) {
    this.taps += 1
    await this.page.waitForTimeout(250)
    const target =
      typeof name === 'object' && !(name instanceof RegExp) ? name : within.getByRole('button', { name }).first()
    await target.click()
  }
  /** Taps every button of this name until none is left; each goes as it is tapped. */
  async tapAll(name) {
    const buttons = this.page.getByRole('button', { name })
    for (let left = await buttons.count(); left > 0; left = await buttons.count()) {
      await this.tap(name)
      await this.until(async () => (await buttons.count()) < left, `"${name}" stays`)
    }
  }
  /** Taps, and waits until what this locator says is another text. */
  async tapTurns(name, locator) {
    const before = await locator.textContent()
    await this.tap(name)
    await this.until(async () => (await locator.textContent()) !== before, `"${name}" changes nothing`)
  }
  /** What was entered goes out at once, as when the page is left. */
  async send() {
    await this.page.evaluate(() => window.dispatchEvent(new Event('pagehide')))
  }
  link(name) {
    return this.page.getByRole('link', { name }).first()
  }
  async sees(text) {
    await this.page.getByText(text).locator('visible=true').first().waitFor()
  }

  /** Asks until it is so; the page sends when it can. */
  async until(what, why) {
    const end = Date.now() + kPatienceMs
    while (!(await what())) {
      if (Date.now() > end) throw new Error(why)
      await new Promise((done) => setTimeout(done, 50))
    }
  }

  async api(method, path, body) {
    const answer = await this.context.request.fetch(`${this.world.base}/api/v1${path}`, {
      method,
      headers: { 'Sec-Fetch-Site': 'same-origin', Origin: this.world.base, 'Content-Type': 'application/json' },
      ...(body === undefined ? {} : { data: JSON.stringify(body) })
    })
    const text = await answer.text()
    if (!answer.ok()) throw new Error(`${method} ${path}: ${answer.status()} ${text.slice(0, 300)}`)
    return JSON.parse(text)
  }
}

const ago = (now, minutes) => new Date(Date.parse(now) - minutes * 60_000).toISOString().replace(/\.\d+Z/, '+00:00')

/** A client whose skin tests of every oxidative shade of the shelf were read clear. */
export async function testedClient(device, name) {
  const { now } = await device.api('GET', '/me')
  const { id } = await device.api('POST', '/clients', { name, age: 'adult' })
  const { shelf } = await device.api('GET', '/shelf')
  const facts = shelf
    .filter((one) => one.kind === 'colour' && ['demi', 'permanent'].includes(one.class))
    .map((one) => ({
      kind: 'skin_test',
      body: {
        product: one.name,
        shade: one.id,
        applied_at: ago(now, 4 * 24 * 60),
        read_at: ago(now, 24 * 60),
        result: 'clear'
      }
    }))
  facts.push({ kind: 'consent', body: { purpose: 'service', answer: 'given' } })
  await device.api('POST', `/clients/${id}/facts`, { facts })
  return id
}

/** A visit with a plan and its best way chosen that is no draft. */
export async function plannedVisit(device, client, look = 'mahogany') {
  const { now } = await device.api('GET', '/me')
  const visit = await device.api('POST', '/visits', { client, starts_at: now })
  const zone = (name, from_cm, to_cm, level) => ({
    name,
    from_cm,
    to_cm,
    readings: [{ level }],
    facts: { stretch: { worst: 'springs_back', strands: 5, places: 3 } }
  })
  const head = {
    person: { age_years: 33, consent: 'given', scalp: 'sound' },
    zones: [zone('roots', 0, 2.5, 2), zone('lengths', 2.5, 15, 2), zone('ends', 15, 20, 3)],
    target: { look },
    visit_at: now,
    asked_at: now
  }
  const { plan } = await device.api('POST', `/visits/${visit.id}/plan`, { case: head, course: 0 })
  const course = 1 + plan.courses.findIndex((one) => !one.draft && one.bowls.length)
  if (course === 0) throw new Error('no way that is no draft')
  await device.api('POST', `/visits/${visit.id}/plan`, { course })
  return { id: visit.id, course: plan.courses[course - 1] }
}

/** Bowl 1 on zones, so many minutes ago. */
export async function putOn(device, visit, zones, minutes) {
  const { now } = await device.api('GET', '/me')
  await device.api('POST', `/visits/${visit}/facts`, {
    facts: zones.map((zone) => ({
      kind: 'apply',
      at: ago(now, minutes),
      body: { bowl: '1', zone, is: 'on' }
    }))
  })
}

/** A visit from its plan to its lesson, with a look that was lighter than expected. */
export async function wholeVisit(device, client) {
  const { id, course } = await plannedVisit(device, client)
  const { now } = await device.api('GET', '/me')
  const lift = course.bowls[0]
  const zones = lift.zones.map((one) => one.zone)
  const pours = lift.items.filter((one) => one.product !== 'water')
  await device.api('POST', `/visits/${id}/facts`, {
    facts: [
      ...pours.map((one, i) => ({ kind: 'pour', at: ago(now, 32), body: { bowl: '1', product: one.product, grams: one.grams + (i ? 0 : 2) } })),
      ...zones.map((zone) => ({ kind: 'apply', at: ago(now, 30), body: { bowl: '1', zone } })),
      { kind: 'reading', at: ago(now, 15), body: { zone: zones[0], when: 'check', level: 4.5, seen: 'wiped' } },
      { kind: 'rinse', at: ago(now, 10), body: { zone: '' } },
      ...zones.map((zone) => ({ kind: 'outcome', at: ago(now, 1), body: { zone, level: 4 } }))
    ]
  })
  await device.api('POST', `/visits/${id}/finish`, {})
  return { id, course, first: zones[0] }
}
