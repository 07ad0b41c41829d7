/**
 * Stands in for the `debug` package, which the numerical library loads for its own developers: it looks for a terminal
 * or a browser's storage, and a cell function's realm has neither. The bundler puts this in its place.
 */
module.exports = () => () => undefined;
