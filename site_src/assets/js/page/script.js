/* Loads a script of this site: resolves to whether it came. */
export const script = (address) =>
  new Promise((done) => {
    const made = document.createElement("script");
    Object.assign(made, { src: address, onload: () => done(true), onerror: () => done(false) });
    document.head.append(made);
  });
