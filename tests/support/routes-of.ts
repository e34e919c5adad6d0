import type { FastifyInstance } from 'fastify'
import type { Method } from './client.ts'

export interface Route {
  readonly method: Method
  /** Parameters as `:id`. */
  readonly path: string
}

/** Every route of the app under /api, but for HEAD, read from the app's own router. */
export function routesOf(app: FastifyInstance): Route[] {
  const above: string[] = []
  return app
    .printRoutes({ commonPrefix: false })
    .split('\n')
    .flatMap((line): Route[] => {
      const found = /^([│ ]*)[├└]── (\S*)(?: \((.+)\))?$/.exec(line)
      if (!found) return []
      const [, indent = '', part = '', methods = ''] = found
      const depth = indent.length / 4
      above.splice(depth, Number.POSITIVE_INFINITY, part)
      const path = above.join('')
      const named = methods.split(', ').filter((method) => method !== '' && method !== 'HEAD')
      return named.map((method) => ({ method: method as Method, path }))
    })
    .filter(({ path }) => path.startsWith('/api/'))
}
