-- Work that is due beside the agreed visits, such as a retest or a repair: when, and why. It goes with a due visit to that
-- system or site in its window, where there is one.
create table work_proposal (
    id                uuid         primary key,
    water_system_id   uuid         not null references water_system (id),
    source            text         not null check (source in ('RETEST', 'REPAIR', 'OTHER')),
    reason            text         not null check (reason <> ''),
    -- both days are part of the window
    earliest          date         not null,
    latest            date         not null,
    planned_visit_id  uuid         references planned_visit (id),
    withdrawn         boolean      not null default false,
    proposed_at       timestamptz  not null,
    check (latest >= earliest)
);
create index work_proposal_water_system_id on work_proposal (water_system_id);
create index work_proposal_planned_visit_id on work_proposal (planned_visit_id);
