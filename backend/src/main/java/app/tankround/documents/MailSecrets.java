package app.tankround.documents;

import java.util.Optional;
import java.util.UUID;

/** What a mail carries and nobody else may read: made while the mail is sent, so that it lies nowhere in the clear. */
public interface MailSecrets {

    /** What stands in the body of a mail where its secret will be. */
    String PLACE = "__secret__";

    /**
     * A new secret, in the transaction in which the mail is sent: where it does not leave, the secret never was.
     *
     * @param about what the mail was queued about
     * @return empty where it is needed no more, so that the mail stays
     */
    Optional<String> forMail(UUID about);
}
