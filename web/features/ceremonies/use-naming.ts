import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { nameSoldiers } from '../../api/ceremonies/ceremonies.ts'

type Names = { postId: string; soldierId: string | null }[]

/** Names soldiers to posts of a ceremony, says what was done, and takes it back. Nothing is named before it is loaded. */
export const useNaming = (ceremony: CeremonyDetail | undefined, onNamed: () => void) => {
  const client = useQueryClient()
  const [done, setDone] = useState<{ text: string; before: Names } | null>(null)
  const refresh = () => client.invalidateQueries({ queryKey: ['ceremonies'] })
  const name = async (text: string, names: Names) => {
    if (!ceremony) return
    const before = names.map(({ postId }) => ({
      postId,
      soldierId: ceremony.formation.find((post) => post.id === postId)?.soldier?.id ?? null,
    }))
    try {
      await nameSoldiers(ceremony.id, ceremony.version, names)
      setDone({ text, before })
      onNamed()
    } finally {
      await refresh()
    }
  }
  const undo = async () => {
    if (ceremony && done) await nameSoldiers(ceremony.id, ceremony.version, done.before)
    await refresh()
  }
  return { done, name, undo, refresh, forget: () => setDone(null) }
}
