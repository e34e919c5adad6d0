import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useLocation } from 'wouter'
import type { Standard } from '#contract/standards/standards.ts'
import { createDraft, invalidateStandards } from '../../api/standards/standards.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'

interface NewVersionButtonProps {
  /** The version to begin from. */
  from: Standard
  versions: readonly Standard[]
  today: string
}

/** Makes a draft of the next number from a version, and goes to it. */
export function NewVersionButton({ from, versions, today }: NewVersionButtonProps) {
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const make = useMutation({
    mutationFn: () => {
      const { id: _id, publishedAt: _at, ...body } = from
      const version = Math.max(...versions.map((one) => one.version)) + 1
      return createDraft({ ...body, version, effectiveFrom: today, equivalentToPrevious: true })
    },
    onSuccess: async ({ id }) => {
      await invalidateStandards(client)
      navigate(addressTo(paths.draft, { id }))
    },
  })
  return (
    <>
      <Button disabled={make.isPending} onClick={() => make.mutate()}>
        Make a new version from this one
      </Button>
      {make.error && <Failure error={make.error} />}
    </>
  )
}
