import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { Effect } from '#contract/standards/effects.ts'

/** An effect asked for by a button, page after page. `about` is what it was asked of: an effect of something else is gone. */
export function useEffectPages(about: string, ask: (after?: string) => Promise<Effect>) {
  const [got, setGot] = useState<{ about: string; pages: Effect[] }>({ about: '', pages: [] })
  const pages = got.about === about ? got.pages : []
  const question = useMutation({
    mutationFn: async (more: boolean) => {
      const page = await ask(more ? (pages.at(-1)?.next ?? undefined) : undefined)
      setGot({ about, pages: more ? [...pages, page] : [page] })
    },
  })
  return {
    pages,
    error: question.error,
    loading: question.isPending,
    show: () => question.mutate(false),
    more: () => question.mutate(true),
  }
}
