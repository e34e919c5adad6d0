import {
  BarController,
  BarElement,
  Chart,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  ScatterController,
  Tooltip,
} from 'chart.js'

// Only what is drawn with; this file is loaded when the first chart is shown.
Chart.register(
  BarController,
  BarElement,
  LineController,
  LineElement,
  LinearScale,
  PointElement,
  ScatterController,
  Tooltip,
)

export { Chart }
