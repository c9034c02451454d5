// Loads this page anew when it was drawn anew. It asks again and again; each answer waits until there is news.
(() => {
  "use strict"
  const { page, seen } = /** @type {HTMLScriptElement} */ (document.currentScript).dataset
  const ask = () =>
    fetch(`/-preview/news?page=${encodeURIComponent(page ?? "")}&seen=${seen}`)
      .then((answer) => answer.text())
      .then((now) => (now === seen ? ask() : location.reload()))
      .catch(() => setTimeout(ask, 1000))
  ask()
})()
