// In place of 70 dictionaries: a sheet does not hyphenate.
export default {
  id: "none",
  leftmin: 2,
  rightmin: 2,
  patterns: {},
  charSubstitution: {},
};
