-- Work that other parts of the program know of: where to see what it comes from. Without a page a person proposed it.
-- Its minutes count for the visit that it goes with.
alter table work_proposal add column page text check (page <> '');
alter table work_proposal add column minutes integer not null default 15 check (minutes between 0 and 480);
alter table work_proposal alter column minutes drop default;
alter table work_proposal drop constraint work_proposal_source_check;
alter table work_proposal add constraint work_proposal_source_check
    check (source in ('RETEST', 'REPAIR', 'PLAN', 'TREATMENT', 'QUARANTINE', 'LEFT_BEHIND', 'OTHER'));

alter table proposed_task add column minutes integer not null default 0 check (minutes between 0 and 480);
alter table proposed_task alter column minutes drop default;
