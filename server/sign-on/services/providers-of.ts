import type { Context } from '../../context/context.ts'
import { openProviders, type Providers } from '../provider/providers.ts'

const opened = new WeakMap<Context, Providers>()

/** The one way a server speaks with providers, with what it has heard of them. */
export function providersOf(context: Context): Providers {
  const found = opened.get(context)
  if (found) return found
  const made = openProviders(context.loopbackProviders, context.clock)
  opened.set(context, made)
  return made
}
