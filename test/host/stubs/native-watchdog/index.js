// Stands for @vscode/native-watchdog, a native module that ends the extension host when its parent dies; the closing of Node's own channel does the same.
exports.start = () => {};
