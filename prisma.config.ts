import { defineConfig } from 'prisma/config'
import { readConfig } from './server/config/config.ts'

/** For Prisma's own tools, such as `npx prisma migrate deploy`; the product itself does not read it. */
export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations' },
  datasource: { url: readConfig().databaseUrl ?? '' },
})
