export function writeWells(folder: string, count: number): void;
