package app.tankround.clients;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.persistence.RecordLock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Clients and the people to talk to there. */
@Service
public class ClientService {

    private final Clients clients;
    private final Contacts contacts;
    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changeLog;

    ClientService(Clients clients, Contacts contacts, JdbcClient jdbc, RecordLock lock, ChangeLog changeLog) {
        this.clients = clients;
        this.contacts = contacts;
        this.jdbc = jdbc;
        this.lock = lock;
        this.changeLog = changeLog;
    }

    public Optional<ClientView> find(ClientId id) {
        return clients.findById(id).map(Client::view);
    }

    /** @throws NotFound if there is none */
    public ClientView require(ClientId id) {
        return find(id).orElseThrow(() -> new NotFound("client", id));
    }

    public Optional<ClientView> findByCode(String code) {
        return clients.findByCode(code).map(Client::view);
    }

    /** All clients by name. */
    public List<ClientView> all() {
        return clients.findAll().stream()
                .map(Client::view)
                .sorted(Comparator.comparing(ClientView::name).thenComparing(ClientView::code))
                .toList();
    }

    /**
     * Clients whose code, name or phone, whose contact's name or whose site's name, street or locality holds the text;
     * all of them for a blank text.
     */
    public List<ClientLine> search(String text) {
        return jdbc.sql("""
                        select c.id, c.code, c.name, c.phone,
                            (select count(*) from site s where s.client_id = c.id) as sites,
                            coalesce((
                                select string_agg(distinct coalesce(s.locality, s.name), ', ')
                                from site s where s.client_id = c.id
                            ), '') as places
                        from client c
                        where :text = ''
                            or position(lower(:text) in lower(concat_ws(' ', c.code, c.name, c.phone))) > 0
                            or exists (
                                select 1 from contact k
                                where k.client_id = c.id and position(lower(:text) in lower(k.name)) > 0
                            )
                            or exists (
                                select 1 from site s
                                where s.client_id = c.id
                                    and position(lower(:text) in lower(concat_ws(' ', s.name, s.street, s.locality))) > 0
                            )
                        order by c.name, c.code
                        """)
                .param("text", text.strip())
                .query((row, number) -> new ClientLine(
                        ClientId.parse(row.getString("id")),
                        row.getString("code"),
                        row.getString("name"),
                        Optional.ofNullable(row.getString("phone")),
                        row.getInt("sites"),
                        row.getString("places")))
                .list();
    }

    /** A code that no client has yet. */
    public String nextCode() {
        return NextCode.of(jdbc, "client", "C");
    }

    /** A code that no contact has yet. */
    public String nextContactCode() {
        return NextCode.of(jdbc, "contact", "P");
    }

    /**
     * Adds a client. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if another client has that code
     * @throws StaleVersion if there is a client of that id that says something else
     */
    @Transactional
    public ClientId add(NewClient added) {
        lock.hold("client " + added.id());
        Optional<Client> stored = clients.findById(added.id());
        if (stored.isPresent()) {
            if (!stored.get().details().equals(added.details())) {
                throw new StaleVersion("/clients/" + added.id(), stored.get().details(), added.details());
            }
            return added.id();
        }
        requireFreeCode(added.id(), added.details());
        clients.save(new Client(added.id(), added.details(), 0));
        changeLog.record("client", added.id(), "added", ChangedFields.of(added.details()));
        return added.id();
    }

    /**
     * Changes a client.
     *
     * @param version the one that the person saw
     * @throws FieldRefusal if another client has that code
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(ClientId id, int version, ClientDetails details) {
        lock.hold("client " + id);
        Client stored = clients.findById(id).orElseThrow(() -> new NotFound("client", id));
        if (stored.details().equals(details)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/clients/" + id, stored.details(), details);
        }
        requireFreeCode(id, details);
        clients.save(stored.with(details));
        changeLog.record("client", id, "changed", ChangedFields.between(stored.details(), details));
    }

    private void requireFreeCode(ClientId id, ClientDetails details) {
        clients.findByCode(details.code())
                .filter(other -> !other.id().equals(id))
                .ifPresent(other -> {
                    throw new FieldRefusal(
                            "code",
                            "web.code-taken",
                            details.code(),
                            other.details().name());
                });
    }

    public Optional<ContactView> findContact(ContactId id) {
        return contacts.findById(id).map(Contact::view);
    }

    /** @throws NotFound if there is none */
    public ContactView requireContact(ContactId id) {
        return findContact(id).orElseThrow(() -> new NotFound("contact", id));
    }

    /** The people to talk to at a client's, by name. */
    public List<ContactView> contacts(ClientId id) {
        return contacts.findByClient(id).stream().map(Contact::view).toList();
    }

    /**
     * Adds a contact. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if another contact has that code or there is no such client
     * @throws StaleVersion if there is a contact of that id that says something else
     */
    @Transactional
    public ContactId addContact(NewContact added) {
        lock.hold("contact " + added.id());
        Optional<Contact> stored = contacts.findById(added.id());
        if (stored.isPresent()) {
            if (!stored.get().details().equals(added.details())) {
                throw new StaleVersion(
                        "/clients/" + added.details().clientId(), stored.get().details(), added.details());
            }
            return added.id();
        }
        requireFreeContactCode(added.id(), added.details());
        contacts.save(new Contact(added.id(), added.details(), 0));
        changeLog.record("contact", added.id(), "added", ChangedFields.of(added.details()));
        return added.id();
    }

    /**
     * Changes a contact.
     *
     * @throws FieldRefusal if another contact has that code or there is no such client
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void changeContact(ContactId id, int version, ContactDetails details) {
        lock.hold("contact " + id);
        Contact stored = contacts.findById(id).orElseThrow(() -> new NotFound("contact", id));
        if (stored.details().equals(details)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/clients/" + stored.details().clientId(), stored.details(), details);
        }
        requireFreeContactCode(id, details);
        contacts.save(stored.with(details));
        changeLog.record("contact", id, "changed", ChangedFields.between(stored.details(), details));
    }

    private void requireFreeContactCode(ContactId id, ContactDetails details) {
        if (!clients.existsById(details.clientId())) {
            throw new FieldRefusal("client", "clients.client-unknown", details.clientId());
        }
        contacts.findByCode(details.code())
                .filter(other -> !other.id().equals(id))
                .ifPresent(other -> {
                    throw new FieldRefusal(
                            "code",
                            "web.code-taken",
                            details.code(),
                            other.details().name());
                });
    }
}
