// Text of the built page lies beside itself in a smaller form, which the server hands out as it is.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'

for (const name of readdirSync('dist', { recursive: true, encoding: 'utf8' })) {
  if (!/\.(js|css|html|svg)$/.test(name)) continue
  const path = join('dist', name)
  writeFileSync(`${path}.gz`, gzipSync(readFileSync(path), { level: 9 }))
}
