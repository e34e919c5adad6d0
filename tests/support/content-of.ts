import pg from 'pg'

export async function connected(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url })
  client.on('error', () => {})
  await client.connect()
  return client
}

/** Every row of every table but the list of migrations, as text. */
export async function contentOf(url: string): Promise<Record<string, string[]>> {
  const client = await connected(url)
  try {
    const { rows: tables } = await client.query<{ name: string }>(
      `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename <> '_prisma_migrations'
       ORDER BY 1`,
    )
    const content: Record<string, string[]> = {}
    for (const { name } of tables) {
      const { rows } = await client.query<{ line: string }>(`SELECT t::text AS line FROM "${name}" t ORDER BY 1`)
      content[name] = rows.map(({ line }) => line)
    }
    return content
  } finally {
    await client.end()
  }
}
