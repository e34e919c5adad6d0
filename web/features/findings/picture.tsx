import { useRef } from 'react'
import { formatKey } from '../../charts/plot/format-key.ts'
import type { Plot } from '../../charts/plot/plot.ts'
import { PlotFigure } from '../../charts/plot/plot-figure.tsx'
import { toPng } from '../../charts/plot/to-png.ts'
import { Button } from '../../ui/button.tsx'
import { saveFile } from '../../ui/save-file.ts'
import { Section } from '../../ui/section.tsx'
import { type Cell, toCsv } from '../../ui/to-csv.ts'
import './picture.css'

export interface Figures {
  head: readonly string[]
  rows: readonly (readonly Cell[])[]
}

interface PictureProps {
  title: string
  note?: string
  plot: Plot
  /** What the picture shows and what it does not. */
  says: string
  /** What is drawn, as a table to keep. */
  figures: Figures
  /** What the files to keep are called, without ending. */
  file: string
}

/** A picture with what it says in words, to keep as PNG, its figures as CSV. */
export function Picture({ title, note, plot, says, figures, file }: PictureProps) {
  const frame = useRef<HTMLDivElement>(null)
  const savePng = async () => {
    const drawing = frame.current?.querySelector('canvas')
    if (drawing) saveFile(`${file}.png`, await toPng(drawing, title, [says, formatKey(plot)]))
  }
  const saveCsv = () => {
    // The mark in front tells spreadsheets that it is UTF-8.
    saveFile(`${file}.csv`, new Blob(['\uFEFF', toCsv(figures.head, figures.rows)], { type: 'text/csv;charset=utf-8' }))
  }
  return (
    <Section
      title={title}
      note={note}
      more={
        <span className="picture-keep no-print">
          <Button kind="quiet" onClick={savePng}>
            PNG<span className="out-of-sight"> picture: {title}</span>
          </Button>
          <Button kind="quiet" onClick={saveCsv}>
            CSV<span className="out-of-sight"> of the figures: {title}</span>
          </Button>
        </span>
      }
    >
      <div ref={frame}>
        <PlotFigure plot={plot} label={`${title}. ${says}`} />
      </div>
      <p className="picture-says">{says}</p>
    </Section>
  )
}
