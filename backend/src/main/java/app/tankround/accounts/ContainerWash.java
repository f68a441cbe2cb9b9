package app.tankround.accounts;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A container that was rinsed, washed, rinsed again and left to dry, and holds the other kind of clean water since.
 *
 * @param person who washed it
 * @param washedOn on which day it was dry
 */
public record ContainerWash(
        UUID id,
        WaterContainerId container,
        ContainerRole from,
        ContainerRole to,
        PersonId person,
        LocalDate washedOn) {}
