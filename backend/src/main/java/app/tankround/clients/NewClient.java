package app.tankround.clients;

/** A client to be added. The id is made before the form is shown, so that sending it twice adds once. */
public record NewClient(ClientId id, ClientDetails details) {}
