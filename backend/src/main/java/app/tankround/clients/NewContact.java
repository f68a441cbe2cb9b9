package app.tankround.clients;

/** A contact to be added. The id is made before the form is shown, so that sending it twice adds once. */
public record NewContact(ContactId id, ContactDetails details) {}
