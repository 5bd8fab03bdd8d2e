export const ratio = (value: number) => `${value.toFixed(1)}:1`;
