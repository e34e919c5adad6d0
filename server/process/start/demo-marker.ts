import { connectDatabase } from './connect-database.ts'

/**
 * What a database says of itself, in the comment on the table of migrations: nothing (a unit's own), that the demo is
 * being loaded into it (or its loading was broken off), or that it holds the demo.
 */
export type DemoState = 'own' | 'loading' | 'demo'

const comments = { loading: 'reviewstand: demo is being loaded', demo: 'reviewstand: demo' }

/** The comment of a database that holds the demo. */
export const demoComment = comments.demo

export async function readDemoState(url: string): Promise<DemoState> {
  const database = await connectDatabase(url)
  try {
    const { rows } = await database.query<{ comment: string | null }>(
      `SELECT obj_description('_prisma_migrations'::regclass) AS comment`,
    )
    const comment = rows[0]?.comment
    if (comment === comments.loading) return 'loading'
    return comment === comments.demo ? 'demo' : 'own'
  } finally {
    await database.end()
  }
}

export async function writeDemoState(url: string, state: 'loading' | 'demo'): Promise<void> {
  const database = await connectDatabase(url)
  try {
    await database.query(`COMMENT ON TABLE _prisma_migrations IS '${comments[state]}'`)
  } finally {
    await database.end()
  }
}
