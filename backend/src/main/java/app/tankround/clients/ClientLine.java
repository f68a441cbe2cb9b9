package app.tankround.clients;

import java.util.Optional;

/**
 * A line of the list of clients.
 *
 * @param places the localities of its sites, or the sites' names where none is given
 */
public record ClientLine(ClientId id, String code, String name, Optional<String> phone, int sites, String places) {}
