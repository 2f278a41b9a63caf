// Runs the scenarios against the real program in a real browser.
//   node e2e/run.mjs PROGRAM [NAME] [--lan PROGRAM] [--photos PROGRAM] [--data FOLDER] [--shots FOLDER] [--page FOLDER]
// NAME: only scenarios that have it in theirs. --lan: hw_test_lan_server, for letting in over HTTPS. --photos:
// hw_test_photo_frame, which renders photos of strands.
// --page: the page from a folder, such as dist, in the place of the one inside the program.
import { mkdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { World } from './world.mjs'
import { scenarios as chair } from './chair.mjs'
import { later, scenarios as desk } from './desk.mjs'
import { scenarios as mishaps } from './mishaps.mjs'
import { scenarios as photo } from './photo.mjs'
import { scenarios as teach } from './teach.mjs'
import { scenarios as screens } from './screens.mjs'

const args = process.argv.slice(2)
const option = (name) => {
  const at = args.indexOf(name)
  return at >= 0 ? args.splice(at, 2)[1] : ''
}
const shots = option('--shots')
const page = option('--page')
const lan = option('--lan')
const photos = option('--photos')
const data = option('--data')
const [program, only] = args
if (!program) {
  console.error('node e2e/run.mjs PROGRAM [NAME] [--lan PROGRAM] [--photos PROGRAM] [--data FOLDER] [--shots FOLDER] [--page FOLDER]')
  process.exit(2)
}
if (shots) mkdirSync(shots, { recursive: true })
const source = join(dirname(fileURLToPath(import.meta.url)), '../..')
const world = new World(program, source, data || undefined)
world.pageFolder = page
await world.open()
world.shots = shots
world.lanProgram = lan
world.photoProgram = photos
let passed = 0
let failed = 0
try {
  world.owner = await world.device('tablet of the owner')
  for (const [name, play] of [...desk, ...chair, ...mishaps, ...photo, ...later, ...teach, ...screens]) {
    if (only && !name.includes(only)) continue
    const start = Date.now()
    world.faults.length = 0
    let told = ''
    try {
      told = (await play(world)) ?? ''
      if (world.faults.length) throw new Error(`faults on the page:\n  ${world.faults.slice(0, 8).join('\n  ')}`)
      passed += 1
    } catch (fault) {
      failed += 1
      told = `FAILED: ${fault.stack ?? fault}`
      if (shots) await world.picture(join(shots, `failed-${failed}`))
    }
    console.log(`${((Date.now() - start) / 1000).toFixed(1)} s  ${name}${told ? ': ' + told : ''}`)
  }
} finally {
  await world.close()
}
console.log(`${passed} passed, ${failed} failed`)
process.exit(failed || !passed ? 1 : 0)
