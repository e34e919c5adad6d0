import fs from 'node:fs'
import { createRequire } from 'node:module'
import { PrismaPg } from '@prisma/adapter-pg'
import {
  bindMigrationAwareSqlAdapterFactory,
  ColumnTypeEnum,
  type SqlDriverAdapter,
  type SqlMigrationAwareDriverAdapterFactory,
} from '@prisma/driver-adapter-utils'
import * as bindings from '@prisma/schema-engine-wasm/schema_engine_bg'
import pg from 'pg'

export type SchemaSource = bindings.DiffTarget

/** The part of Prisma's engine that tests use. */
export interface SchemaEngine {
  /** The SQL statements that would make the one schema out of the other. */
  statementsBetween(from: SchemaSource, to: SchemaSource): Promise<string[]>
  close(): Promise<void>
}

/**
 * Prisma's own schema engine, in its WebAssembly form: the native one would have to be downloaded from outside npm. It is
 * not made for use outside Prisma's command line, so what does not fit is put right here, each with its reason.
 * @param url a database whose owner may create others: the migrations are replayed in one of those
 */
export async function openSchemaEngine(url: string, schema: string): Promise<SchemaEngine> {
  await load()
  const factory = new DatabaseOfEngine(url)
  const engine = await bindings.SchemaEngine.new(
    { datamodels: [['prisma/schema.prisma', schema]] },
    () => {},
    bindMigrationAwareSqlAdapterFactory(factory as unknown as SqlMigrationAwareDriverAdapterFactory),
  )
  return {
    async statementsBetween(from, to) {
      const filters = { externalTables: [], externalEnums: [] }
      const { stdout } = await engine.diff({ from, to, script: true, exitCode: null, filters })
      const statements = (stdout ?? '').replaceAll(/^--.*$/gm, '').split(';')
      return statements.map((each) => each.trim()).filter((each) => each !== '')
    },
    async close() {
      engine.free()
      await factory.close()
    },
  }
}

let loaded: Promise<void> | undefined

function load(): Promise<void> {
  loaded ??= instantiate()
  return loaded
}

async function instantiate(): Promise<void> {
  // A panic of the engine looks for this object and hides itself behind a TypeError where it is missing.
  Object.assign(globalThis, { PRISMA_WASM_PANIC_REGISTRY: { set_message: (text: string) => console.error(text) } })
  const script = createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm/schema_engine_bg')
  const imports: Record<string, unknown> = { ...bindings }
  for (const name of Object.keys(imports).filter((each) => each.startsWith('__wbg_setTimeout_'))) {
    // The engine never clears the ten-second timer of its lock, and the process would wait for it.
    imports[name] = (run: () => void, milliseconds: number) => setTimeout(run, milliseconds >>> 0).unref()
  }
  const code = await WebAssembly.compile(fs.readFileSync(script.replace(/\.js$/, '.wasm')))
  const { exports } = await WebAssembly.instantiate(code, {
    './schema_engine_bg.js': imports as WebAssembly.ModuleImports,
  })
  bindings.__wbg_set_wasm(exports)
  ;(exports.__wbindgen_start as () => void)()
}

class DatabaseOfEngine extends PrismaPg {
  readonly url: string
  readonly opened: SqlDriverAdapter[] = []

  constructor(url: string) {
    super({ connectionString: url, max: 1, allowExitOnIdle: true })
    this.url = url
  }

  override async connect() {
    const adapter = fitted(await super.connect())
    this.opened.push(adapter)
    return adapter
  }

  /** The adapter's own would reach the given database itself, since the address of a database wins over its name. */
  override async connectToShadowDb() {
    const name = `shadow_${crypto.randomUUID().replaceAll('-', '')}`
    await ask(this.url, `CREATE DATABASE ${name} TEMPLATE template0`)
    const url = new URL(this.url)
    url.pathname = `/${name}`
    const shadow = fitted(await new PrismaPg({ connectionString: url.href, max: 1 }).connect())
    const dispose = shadow.dispose.bind(shadow)
    shadow.dispose = async () => {
      await dispose()
      await ask(this.url, `DROP DATABASE ${name} WITH (FORCE)`)
    }
    return shadow
  }

  async close() {
    for (const adapter of this.opened) await adapter.dispose().catch(() => {})
  }
}

async function ask(url: string, statement: string): Promise<void> {
  const session = new pg.Client({ connectionString: url })
  await session.connect()
  try {
    await session.query(statement)
  } finally {
    await session.end()
  }
}

/** Type number of PostgreSQL's "char", which its catalogue uses and the adapter does not know; and of text. */
const charType = 18
const textType = 25

interface Inside {
  performIO(query: unknown): Promise<{ fields: { dataTypeID: number }[] }>
  underlyingDriver(): pg.Pool
}

function fitted<Adapter extends SqlDriverAdapter>(adapter: Adapter): Adapter {
  const inside = adapter as unknown as Inside
  const performIO = inside.performIO.bind(adapter)
  const queryRaw = adapter.queryRaw.bind(adapter)
  let chars: number[] = []
  // The adapter reads "char" as text, and the engine is told afterwards that it is a character.
  inside.performIO = async (query) => {
    const result = await performIO(query)
    chars = result.fields.flatMap(({ dataTypeID }, index) => (dataTypeID === charType ? index : []))
    for (const index of chars) result.fields[index]!.dataTypeID = textType
    return result
  }
  adapter.queryRaw = async (query) => {
    const rows = await queryRaw(query)
    for (const index of chars) rows.columnTypes[index] = ColumnTypeEnum.Character
    return rows
  }
  // The adapter cuts scripts at every semicolon, those inside of functions included.
  adapter.executeScript = async (script) => {
    await inside.underlyingDriver().query(script)
  }
  return adapter
}
