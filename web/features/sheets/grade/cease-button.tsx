import { Button } from '../../../ui/button.tsx'

/** Stops everything, in one tap, from wherever one is. */
export function CeaseButton({ onCease }: { onCease: () => void }) {
  return (
    <Button className="cease" onClick={onCease}>
      Cease
    </Button>
  )
}
