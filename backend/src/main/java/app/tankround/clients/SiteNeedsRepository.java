package app.tankround.clients;

import org.springframework.data.repository.ListCrudRepository;

interface SiteNeedsRepository extends ListCrudRepository<SiteNeeds, SiteId> {}
