// Answers one address that the server does not know.
self.addEventListener("fetch", (event) => {
  if (event.request.url.endsWith("/js/network/from-the-worker")) {
    event.respondWith(new Response("answered by the worker"));
  }
});
