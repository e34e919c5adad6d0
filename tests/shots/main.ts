import { parseArgs } from 'node:util'
import { openBrowser } from '../support/browser.ts'
import { contactSheet } from './contact-sheet.ts'
import { demoServer } from './demo-server.ts'
import { shoot } from './shoot.ts'
import { shootGrading } from './shoot-grading.ts'
import { ROLES, thingsOf } from './things-of.ts'

const HELP = `npm run shots [-- --url http://… --password … --role office --only stand,desk]

Writes a picture of every screen, as each role sees it, at three widths and in every theme to the folder shots, and
of every state of a grade sheet on a phone in four holds, with shots/index.html to page through. Without --url it starts the product with its demo on a folder of its own and ends it.`

const { values } = parseArgs({
  options: {
    url: { type: 'string' },
    password: { type: 'string', default: 'calloway-demo-only' },
    role: { type: 'string' },
    only: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
})

if (values.help) console.log(HELP)
else {
  const server = values.url ? { url: values.url, end: async () => undefined } : await demoServer()
  const browser = await openBrowser()
  try {
    const roles = ROLES.filter(({ role }) => !values.role || role === values.role)
    const only = values.only?.split(',')
    for (const { role, account } of roles) {
      const things = await thingsOf(server.url, account, values.password)
      await shoot({ browser, url: server.url, role, account, password: values.password, things, only })
    }
    if (!values.role || values.role === 'grader') {
      await shootGrading({ browser, url: server.url, account: 'grader', password: values.password })
    }
    console.log(`${contactSheet()} pictures: open shots/index.html`)
  } finally {
    await browser.close()
    await server.end()
  }
}
