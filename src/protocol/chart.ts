export type { Chart, ChartMark, ChartOutcome, ChartPanel, ChartSign, ChartSubject, PlacedText, Point, SignedPoint } from '../views/charts/chart';
