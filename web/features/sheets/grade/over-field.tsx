import { isCeased } from '../../../domain/sheets/grading/running-sheet.ts'
import { Ceased } from './ceased.tsx'
import { MajorPanel } from './major-panel.tsx'
import { More } from './more.tsx'
import { OverridePanel } from './override-panel.tsx'
import { Overview } from './overview.tsx'
import type { PanelProps } from './panel-props.ts'
import type { Settings } from './settings.ts'
import { VoidPanel } from './void-panel.tsx'

/** The panel that lies over the running sheet; null: none. */
export type Over = 'overview' | 'more' | 'void' | 'override' | { readonly major: string } | null

interface OverFieldProps {
  panel: PanelProps
  over: Over
  onOver: (over: Over) => void
  /** To put a walk-in right, under More. */
  walkIn: React.ReactNode
  /** Null: the sheet is part of another page and is not left. */
  leaveTo: string | null
  settings: Settings
  onSettings: (settings: Settings) => void
}

/** What lies over the running sheet; a ceased test lies over it whenever nothing else does. */
export function OverField({ panel, over, onOver, ...more }: OverFieldProps) {
  const endVoid = () => onOver('void')
  if (over === null) {
    return isCeased(panel.sheet) && <Ceased {...panel} onMajor={(major) => onOver({ major })} onVoid={endVoid} />
  }
  switch (over) {
    case 'overview':
      return <Overview {...panel} />
    case 'more':
      return <More {...panel} {...more} onVoid={endVoid} />
    case 'void':
      return <VoidPanel {...panel} />
    case 'override':
      return <OverridePanel {...panel} />
    default:
      return <MajorPanel {...panel} major={over.major} />
  }
}
