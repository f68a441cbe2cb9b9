package app.tankround.clients;

import org.springframework.data.repository.ListCrudRepository;

interface SiteSafeties extends ListCrudRepository<SiteSafety, SiteId> {}
