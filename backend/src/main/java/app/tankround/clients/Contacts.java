package app.tankround.clients;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface Contacts extends ListCrudRepository<Contact, ContactId> {

    @Query("select * from contact where code = :code")
    Optional<Contact> findByCode(String code);

    @Query("select * from contact where client_id = :clientId order by name, code")
    List<Contact> findByClient(ClientId clientId);
}
