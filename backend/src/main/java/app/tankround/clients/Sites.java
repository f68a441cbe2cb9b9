package app.tankround.clients;

import java.util.Optional;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface Sites extends ListCrudRepository<Site, SiteId> {

    @Query("select * from site where code = :code")
    Optional<Site> findByCode(String code);
}
