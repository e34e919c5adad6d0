import { correction, generate } from 'lean-qr'
import './qr.css'

/** Quiet modules around the code, as ISO/IEC 18004 asks for. */
const QUIET = 4

/**
 * A text as a QR code, dark on light in every theme, for cameras read no other. In: the text, of at most 2,000 characters; where it is
 * `long`, larger squares matter more to a camera than what could be lost of them.
 */
export function Qr({ text, label, long = false }: { text: string; label: string; long?: boolean }) {
  const code = generate(text, { minCorrectionLevel: long ? correction.L : correction.M })
  const size = code.size + 2 * QUIET
  const squares = Array.from(
    { length: code.size ** 2 },
    (_, at) => [at % code.size, Math.floor(at / code.size)] as const,
  )
    .filter(([x, y]) => code.get(x, y))
    .map(([x, y]) => `M${x + QUIET} ${y + QUIET}h1v1h-1z`)
  return (
    <svg className="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shapeRendering="crispEdges">
      <rect className="qr-light" width={size} height={size} />
      <path className="qr-dark" d={squares.join('')} />
    </svg>
  )
}
