-- Socks that are left with the client, who swaps them between two visits.
alter table agreement_task drop constraint agreement_task_kind_check;
alter table agreement_task add constraint agreement_task_kind_check
    check (kind in ('WATER_CHANGE', 'TOP_UP', 'SOCK_SWAP', 'SOCKS_LEFT', 'TEST', 'DOSE', 'MEDIA', 'WORK'));
