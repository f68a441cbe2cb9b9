package app.tankround.accounts;

import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.springframework.security.crypto.password.PasswordEncoder;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The people of the business and how they are known to sign-in. */
@Service
public class People {

    /** NIST SP 800-63B, section 3.1.1.2: a password that stands alone has at least 15 characters. */
    public static final int SHORTEST_PASSWORD = 15;

    private static final int LONGEST_PASSWORD = 200;
    private static final int LONGEST_NAME = 100;
    private static final Pattern SIGN_IN_NAME = Pattern.compile("[a-z0-9][a-z0-9._@+-]{1,99}");

    private final Persons persons;
    private final PasswordEncoder passwordEncoder;
    private final ChangeLog changeLog;
    private final FindByIndexNameSessionRepository<? extends Session> sessions;
    private final Clock clock;

    People(
            Persons persons,
            PasswordEncoder passwordEncoder,
            ChangeLog changeLog,
            FindByIndexNameSessionRepository<? extends Session> sessions,
            Clock clock) {
        this.persons = persons;
        this.passwordEncoder = passwordEncoder;
        this.changeLog = changeLog;
        this.sessions = sessions;
        this.clock = clock;
    }

    public Optional<PersonView> find(PersonId id) {
        return TransactionMemory.askedOnce(
                this, "find", id, () -> persons.findById(id).map(Person::view));
    }

    public PersonView require(PersonId id) {
        return find(id).orElseThrow(() -> new NotFound("person", id));
    }

    public Optional<PersonView> findBySignInName(String signInName) {
        return persons.findBySignInName(signInName.strip().toLowerCase(Locale.ROOT))
                .map(Person::view);
    }

    public List<PersonView> all() {
        return persons.findAllByOrderByNameAscIdAsc().stream().map(Person::view).toList();
    }

    public List<PersonView> technicians() {
        return all().stream()
                .filter(person -> person.active() && person.role() == Role.TECHNICIAN)
                .toList();
    }

    public boolean hasOwner() {
        return persons.existsByRoleAndActive(Role.OWNER, true);
    }

    /**
     * Adds a person; adding the same id again changes nothing.
     *
     * @throws FieldRefusal for an empty or too long name, or a sign-in name that is malformed or taken
     */
    @Transactional
    public PersonId add(NewPerson person) {
        if (persons.existsById(person.id())) {
            return person.id();
        }
        String name = checkedName(person.name());
        String signInName = person.signInName().strip().toLowerCase(Locale.ROOT);
        if (!SIGN_IN_NAME.matcher(signInName).matches()) {
            throw new FieldRefusal("signInName", "accounts.sign-in-name-malformed", person.signInName());
        }
        if (persons.findBySignInName(signInName).isPresent()) {
            throw new FieldRefusal("signInName", "accounts.sign-in-name-taken", signInName);
        }
        persons.save(new Person(person.id(), signInName, name, person.role(), null, person.locale(), true, 0));
        changeLog.record(
                "person",
                person.id(),
                "added",
                Map.of("name", name, "role", person.role().name()));
        return person.id();
    }

    /**
     * The person of that sign-in name, as an import refers to people. Whoever is not there yet is kept as a technician who
     * may not sign in, so that no record loses its author; the owner decides later.
     *
     * @throws FieldRefusal for a malformed sign-in name
     */
    @Transactional
    public PersonId keep(String signInName, String field) {
        Optional<PersonView> known = findBySignInName(signInName);
        if (known.isPresent()) {
            return known.get().id();
        }
        PersonId id = PersonId.of(Uuids.next(clock.instant()));
        try {
            add(new NewPerson(id, signInName, signInName, Role.TECHNICIAN, Locale.UK));
        } catch (FieldRefusal refusal) {
            throw new FieldRefusal(field, refusal.code(), refusal.args().toArray());
        }
        PersonView added = require(id);
        change(id, added.name(), added.role(), added.locale(), false, added.version());
        return id;
    }

    /**
     * Changes name, role, language and whether the person may sign in. Whoever may no longer sign in, or has another
     * role, is signed out everywhere.
     *
     * @throws StaleVersion if somebody else changed the person meanwhile
     * @throws FieldRefusal if it would leave the business without an owner
     */
    @Transactional
    public void change(PersonId id, String name, Role role, Locale locale, boolean active, int version) {
        Person stored = persons.findById(id).orElseThrow(() -> new NotFound("person", id));
        Person wanted = stored.with(checkedName(name), role, locale, active, version);
        if (stored.version() != version) {
            throw new StaleVersion("/people/" + id, stored.view(), wanted.view());
        }
        boolean stops = stored.role() == Role.OWNER && stored.active() && (role != Role.OWNER || !active);
        if (stops && owners().equals(Set.of(id))) {
            throw new FieldRefusal("role", "accounts.last-owner", stored.name());
        }
        persons.save(wanted);
        changeLog.record(
                "person",
                id,
                "changed",
                Map.of("name", wanted.name(), "role", role.name(), "active", active, "locale", locale.toLanguageTag()));
        if (!active || stored.role() != role) {
            signOutEverywhere(stored.signInName());
        }
    }

    /** @throws FieldRefusal for a password shorter than {@value #SHORTEST_PASSWORD} characters or far too long */
    @Transactional
    public void setPassword(PersonId id, String password) {
        Person stored = persons.findById(id).orElseThrow(() -> new NotFound("person", id));
        if (password.length() < SHORTEST_PASSWORD || password.length() > LONGEST_PASSWORD) {
            throw new FieldRefusal(
                    "password", "accounts.password-length", password.length(), SHORTEST_PASSWORD, LONGEST_PASSWORD);
        }
        String hash = passwordEncoder.encode(password);
        persons.save(stored.withPasswordHash(Objects.requireNonNull(hash)));
        changeLog.record("person", id, "password-set", Map.of());
    }

    private Set<PersonId> owners() {
        return persons.findAll().stream()
                .filter(person -> person.active() && person.role() == Role.OWNER)
                .map(Person::id)
                .collect(Collectors.toSet());
    }

    /** Ends every sign-in of a person, such as one on a tablet that was lost. */
    @Transactional
    public void signOutEverywhere(PersonId id) {
        signOutEverywhere(require(id).signInName());
    }

    private void signOutEverywhere(String signInName) {
        sessions.findByPrincipalName(signInName).keySet().forEach(sessions::deleteById);
    }

    private static String checkedName(String name) {
        String stripped = name.strip();
        if (stripped.isEmpty() || stripped.length() > LONGEST_NAME) {
            throw new FieldRefusal("name", "accounts.name-length", stripped, 1, LONGEST_NAME);
        }
        return stripped;
    }
}
