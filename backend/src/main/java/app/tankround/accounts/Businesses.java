package app.tankround.accounts;

import java.util.UUID;
import org.springframework.data.repository.ListCrudRepository;

interface Businesses extends ListCrudRepository<Business, UUID> {}
