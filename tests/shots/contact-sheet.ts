import fs from 'node:fs'
import path from 'node:path'
import { FOLDER } from './shoot.ts'

/** Writes `shots/index.html`, all pictures small and by role and screen, each a link to itself. Out: how many there are. */
export function contactSheet(): number {
  const roles = fs.readdirSync(FOLDER, { withFileTypes: true }).filter((entry) => entry.isDirectory())
  let count = 0
  const parts = roles.map(({ name: role }) => {
    const files = fs
      .readdirSync(path.join(FOLDER, role))
      .filter((file) => file.endsWith('.png'))
      .sort()
    count += files.length
    const screens = [...new Set(files.map((file) => file.split('-')[0]!))]
    const rows = screens.map((screen) => {
      const pictures = files
        .filter((file) => file.startsWith(`${screen}-`))
        .map(
          (file) => `<a href="${role}/${file}"><img loading="lazy" src="${role}/${file}" alt="${file}"><br>${file}</a>`,
        )
      return `<h3>${screen}</h3><p>${pictures.join('')}</p>`
    })
    return `<h2>${role}</h2>${rows.join('')}`
  })
  const style =
    'body{font:14px system-ui;margin:2rem}a{display:inline-block;margin:0 1rem 1rem 0;vertical-align:top}img{width:220px;height:300px;object-fit:cover;object-position:top;border:1px solid #888}'
  const page = `<!doctype html><meta charset="utf-8"><title>Screens</title><style>${style}</style><h1>Screens</h1>${parts.join('')}`
  fs.writeFileSync(path.join(FOLDER, 'index.html'), page)
  return count
}
