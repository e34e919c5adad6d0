import { useMutation } from '@tanstack/react-query'
import { readStandard } from '../../../api/standards/standards.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Notice } from '../../../ui/notice.tsx'
import type { DraftKeeper } from './draft-keeper.ts'

interface ClashNoticeProps {
  id: string
  keeper: DraftKeeper
  /** Hands out one's own as a file first. */
  onSaveFile: () => void
}

/** Two people wrote the same draft: the later one chooses, and nothing is dropped unasked. */
export function ClashNotice({ id, keeper, onSaveFile }: ClashNoticeProps) {
  const settle = useMutation({
    mutationFn: async (which: 'theirs' | 'mine') => keeper.settle(await readStandard(id), which),
  })
  return (
    <Notice kind="bad">
      <p>
        Somebody else has changed this draft since you opened it, so yours is not saved; it is kept on this device.
        Choose which one goes on. Keeping theirs can be undone here.
      </p>
      <div className="draft-buttons">
        <Button disabled={settle.isPending} onClick={() => settle.mutate('theirs')}>
          Keep theirs
        </Button>
        <Button disabled={settle.isPending} onClick={() => settle.mutate('mine')}>
          Keep mine
        </Button>
        <Button kind="quiet" onClick={onSaveFile}>
          Save mine as a file first
        </Button>
      </div>
      {settle.error && <Failure error={settle.error} />}
    </Notice>
  )
}
