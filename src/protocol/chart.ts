export type { Chart, ChartMark, ChartPanel, ChartSign, PlacedText, Point, SignedPoint } from '../views/charts/chart';
