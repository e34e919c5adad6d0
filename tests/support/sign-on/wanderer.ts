/** A browser without pages: keeps cookies by host and follows what it is told to, as far as a test wants. */
export interface Wanderer {
  /** Asks one address. Cookies go where they belong; nothing is followed. */
  ask(address: string, init?: RequestInit): Promise<Response>
  /** Follows redirects, and types who one is into the provider's form, until an address fits. Out: that address, not asked. */
  follow(address: string, who: string, until: (address: URL) => boolean): Promise<URL>
}

const MOST_STEPS = 20

export function createWanderer(): Wanderer {
  const cookies = new Map<string, Map<string, string>>()

  async function ask(address: string, init: RequestInit = {}): Promise<Response> {
    const { host } = new URL(address)
    const own = cookies.get(host) ?? new Map<string, string>()
    const headers = new Headers(init.headers)
    headers.set('cookie', [...own].map(([name, value]) => `${name}=${value}`).join('; '))
    const answer = await fetch(address, { ...init, headers, redirect: 'manual' })
    for (const line of answer.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(line) ?? []
      if (/max-age=0|expires=thu, 01 jan 1970/i.test(line)) own.delete(name)
      else own.set(name, value)
    }
    cookies.set(host, own)
    return answer
  }

  async function follow(address: string, who: string, until: (address: URL) => boolean): Promise<URL> {
    let next = new URL(address)
    for (let step = 0; step < MOST_STEPS; step += 1) {
      if (until(next)) return next
      let answer = await ask(next.href)
      if (answer.status === 200 && next.pathname.startsWith('/login/')) {
        const body = new URLSearchParams({ who })
        answer = await ask(next.href, { method: 'POST', body })
      }
      const location = answer.headers.get('location')
      if (location === null) throw new Error(`${next.pathname}: ${answer.status} ${await answer.text()}`)
      next = new URL(location, next)
    }
    throw new Error('It goes round and round.')
  }

  return { ask, follow }
}
