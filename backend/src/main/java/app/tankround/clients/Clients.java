package app.tankround.clients;

import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface Clients extends ListCrudRepository<Client, ClientId> {

    @Query("select * from client where code = :code")
    Optional<Client> findByCode(String code);
}
