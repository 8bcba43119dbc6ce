// The water and ice of one car over the day: "stock" of the kit's answer (docs/stock.md).
export interface CarStock {
  car: string;
  wanted: number;
  chance: number;
  holds: boolean;
  days: number;
  weakest?: string;
  stops: { stop: string; there: number; dry: number; left_at_least_litres: number }[];
  carry: { holds: string; unit: string; carry: number; room: number }[];
  refills: { stop: string; container: string | null; unit: string; median: number; up_to: number; minutes: number }[];
  buy: { holds: string; unit: string; least: number; size_litres?: number; count?: number; chance: number }[];
  leave_at_home: string[];
  assumptions: string[];
}
