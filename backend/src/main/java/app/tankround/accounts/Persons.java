package app.tankround.accounts;

import java.util.List;
import java.util.Optional;
import org.springframework.data.repository.ListCrudRepository;

interface Persons extends ListCrudRepository<Person, PersonId> {

    Optional<Person> findBySignInName(String signInName);

    List<Person> findAllByOrderByNameAscIdAsc();

    boolean existsByRoleAndActive(Role role, boolean active);
}
