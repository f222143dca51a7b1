// ELK takes a worker it finds itself in for its own and answers no calls there. A scope that has a `document` is a page
// to it, so it stands ready as a plain function. Must be imported before ELK.
Object.assign(globalThis, { document: {} })
