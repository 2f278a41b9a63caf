// What the page costs and how quick it is, measured in a browser against the real program.
//   node e2e/bench.mjs PROGRAM [GOALS.tsv]     HW_TABLET_SECONDS: how long eight tablets ask (60)
// Prints a table; with GOALS.tsv its rows are put behind those of the other benchmarks.
import { appendFileSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { dragBorder } from './measure.mjs'
import { kSizes, plannedVisit, putOn, testedClient, World } from './world.mjs'

const kTimes = 7
const kMB = 1024 * 1024
const [program, goals] = process.argv.slice(2)
if (!program) {
  console.error('node e2e/bench.mjs PROGRAM [GOALS.tsv]')
  process.exit(2)
}
const sorted = (all) => [...all].sort((a, b) => a - b)
const median = (all) => sorted(all)[Math.floor(all.length / 2)]
const p95 = (all) => sorted(all)[Math.min(all.length - 1, Math.floor(all.length * 0.95))]

/** Bytes that came over the wire, and when the first heading of the day was painted, from nothing in
 *  the browser's memory. */
async function coldStart(world) {
  const weights = []
  const paints = []
  for (let i = 0; i < kTimes; ++i) {
    const d = await world.device(`tablet ${i} of the bench`, 'colourist', kSizes.wide)
    const devtools = await d.context.newCDPSession(d.page)
    await devtools.send('Network.enable')
    const kinds = new Map()
    let bytes = 0
    devtools.on('Network.responseReceived', ({ requestId, response, type }) => kinds.set(requestId, [type, response.url]))
    devtools.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
      const [type, url] = kinds.get(requestId) ?? ['', '']
      if (type !== 'Font' && !url.includes('/api/')) bytes += encodedDataLength
    })
    await d.page.addInitScript(() => {
      const look = () => {
        if (document.querySelector('main h1')) requestAnimationFrame(() => (window.useful_ms = performance.now()))
        else requestAnimationFrame(look)
      }
      requestAnimationFrame(look)
    })
    await d.go('today')
    await d.page.waitForFunction(() => window.useful_ms)
    paints.push(await d.page.evaluate(() => window.useful_ms))
    await d.settled()
    weights.push(bytes)
    await d.context.close()
  }
  return { kB: median(weights) / 1000, ms: median(paints) }
}

/** From the tap that confirms a check to the new plan in words on the screen. */
async function checkToPlan(world) {
  const d = await world.device('tablet of the checks', 'colourist', kSizes.wide)
  const times = []
  for (let i = 0; i < kTimes; ++i) {
    const client = await testedClient(world.owner, `Client ${i}`)
    const { id, course } = await plannedVisit(world.owner, client)
    await putOn(world.owner, id, course.bowls[0].zones.map((one) => one.zone), 8)
    await d.go(`visits/${id}/run`)
    await d.page.getByRole('button', { name: 'All as expected' }).waitFor()
    await d.settled()
    await d.tap('All as expected')
    await d.page.getByRole('button', { name: /^Undo/ }).waitFor()
    // The ten seconds in which it can be taken back end here; then it is the program's turn.
    times.push(
      await d.page.evaluate(async () => {
        const start = performance.now()
        window.dispatchEvent(new Event('pagehide'))
        while (!document.querySelector('.changed')) await new Promise((done) => requestAnimationFrame(done))
        await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))
        return performance.now() - start
      })
    )
    await world.owner.api('POST', `/visits/${id}/facts`, {
      facts: course.bowls[0].zones.map((one) => ({ kind: 'rinse', body: { zone: one.zone } }))
    })
  }
  await d.context.close()
  return median(times)
}

/** From an input event to the frame that shows it: a border dragged on the strand. */
async function dragged(world) {
  const d = await world.device('laptop of the bench', 'colourist', kSizes.laptop)
  const client = await testedClient(world.owner, 'Dragged')
  await d.go(`clients/${client}`)
  await d.tap('New visit now')
  await d.page.getByRole('button', { name: /^lengths/ }).click()
  await d.settled()
  const times = await dragBorder(d.page, 15, 10, 0.05)
  await d.context.close()
  return p95(times)
}

/** From a slider's input to the frame with the chart the server drew for it. */
async function bench(world) {
  const d = await world.device('laptop at the workbench', 'colourist', kSizes.laptop)
  await d.go('workbench')
  await d.page.locator('canvas').first().waitFor()
  await d.settled()
  const kMoves = 60
  const kHandMs = 120
  const times = await d.page.evaluate(
    async ([moves, hand]) => {
      const slider = document.querySelector('input[type=range]')
      const field = document.querySelector('canvas')
      const out = []
      for (let i = 0; i < moves; ++i) {
        slider.value = String(1 + (i % 22) / 2)
        const path = () => document.querySelector('figure .line')?.getAttribute('d') ?? ''
        const before = path()
        const start = performance.now()
        slider.dispatchEvent(new Event('input', { bubbles: true }))
        while (path() === before && performance.now() - start < 2000) await new Promise((done) => setTimeout(done, 1))
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)))
        out.push(performance.now() - start)
        await new Promise((done) => setTimeout(done, hand))
      }
      return field ? out : []
    },
    [kMoves, kHandMs]
  )
  await d.context.close()
  return p95(times)
}

const rss = (pid) => Number(readFileSync(`/proc/${pid}/status`, 'utf8').match(/VmRSS:\s+(\d+)/)[1]) * 1024

/** Eight tablets that ask once a second; the server's memory after the first fifth and at the end. */
async function tablets(world, seconds) {
  const client = await testedClient(world.owner, 'Eight')
  const { id, course } = await plannedVisit(world.owner, client)
  await putOn(world.owner, id, course.bowls[0].zones.map((one) => one.zone), 5)
  const end = Date.now() + seconds * 1000
  const settled = Date.now() + seconds * 200
  let early = 0
  const one = async () => {
    while (Date.now() < end) {
      await world.owner.api('GET', `/visits/${id}/run`)
      await world.owner.api('POST', '/chart', { visit: id, course: 1, columns: 160, rows: 72 })
      if (!early && Date.now() > settled) early = rss(world.server.pid)
      await new Promise((done) => setTimeout(done, 1000))
    }
  }
  await Promise.all(Array.from({ length: 8 }, one))
  return { early: early / kMB, late: rss(world.server.pid) / kMB }
}

const world = new World(program, join(dirname(fileURLToPath(import.meta.url)), '../..'))
await world.open()
const rows = []
const row = (work, goal, measured, met) => rows.push([work, goal, measured, met ? 'yes' : 'no', '', ''])
try {
  world.owner = await world.device('tablet of the owner')
  const cold = await coldStart(world)
  row('page on the wire, compressed, without fonts', '200 kB', `${cold.kB.toFixed(0)} kB`, cold.kB <= 200)
  row('first useful paint on loopback, nothing cached', '1000 ms', `${cold.ms.toFixed(0)} ms`, cold.ms <= 1000)
  const plan = await checkToPlan(world)
  row('check to new plan on screen', '300 ms', `${plan.toFixed(0)} ms`, plan <= 300)
  const drag = await dragged(world)
  row('a border dragged on the strand, input to paint, 95 of 100', '50 ms', `${drag.toFixed(0)} ms`, drag <= 50)
  const slide = await bench(world)
  row('a slider of the workbench, input to chart painted, 95 of 100', '50 ms', `${slide.toFixed(0)} ms`, slide <= 50)
  const seconds = Number(process.env.HW_TABLET_SECONDS ?? 60)
  const memory = await tablets(world, seconds)
  row(
    `memory of the server, 8 tablets, ${seconds} s`,
    'flat (5 %)',
    `${memory.early.toFixed(0)} → ${memory.late.toFixed(0)} MB`,
    memory.late <= memory.early * 1.05
  )
} finally {
  await world.close()
}
for (const one of rows) console.log(`| ${one.slice(0, 4).join(' | ')} |`)
if (goals) appendFileSync(goals, rows.map((one) => one.join('\t') + '\n').join(''))
