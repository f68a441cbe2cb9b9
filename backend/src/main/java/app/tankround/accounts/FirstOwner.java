package app.tankround.accounts;

import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Turns an empty installation into somebody's business. */
@Service
public class FirstOwner {

    private final SignInLinks links;
    private final People people;
    private final BusinessProfile profile;
    private final Clock clock;

    FirstOwner(SignInLinks links, People people, BusinessProfile profile, Clock clock) {
        this.links = links;
        this.people = people;
        this.profile = profile;
        this.clock = clock;
    }

    public boolean isOpen(String token) {
        return !people.hasOwner() && links.isOpenForFirstOwner(token);
    }

    /**
     * Makes the business and its first owner, and uses up the token, all or nothing.
     *
     * @return nothing if the token was used or never made
     * @throws FieldRefusal if a name, the password or a setting is refused
     */
    @Transactional
    public Optional<PersonId> setUp(
            String token, BusinessSettings settings, String signInName, String name, String password) {
        if (people.hasOwner() || !links.useForFirstOwner(token)) {
            return Optional.empty();
        }
        profile.save(settings);
        PersonId id = PersonId.of(Uuids.next(clock.instant()));
        people.add(new NewPerson(id, signInName, name, Role.OWNER, settings.locale()));
        people.setPassword(id, password);
        return Optional.of(id);
    }
}
