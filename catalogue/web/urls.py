"""Every address, grouped by its first words, in the order of the menu.

``/c/<composer>/`` opens one composer's catalogue; the address says whose it is, so that two windows never mix.
A view's module is loaded when one of its addresses is first asked for (``later``); whoever checks types sees the views.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.urls import URLPattern, URLResolver, include

from catalogue.web.later import modules_of, path

if TYPE_CHECKING:
    from catalogue.web.views import (
        account,
        backups,
        calendars,
        calls,
        choices,
        click,
        composers,
        documents,
        duplicates,
        electronics,
        entry,
        exports,
        exposure,
        faces,
        feeds,
        file_links,
        handovers,
        help,
        hires,
        histories,
        house,
        house_deadlines,
        house_members,
        houses,
        imports,
        look,
        members,
        operations,
        outcomes,
        packs,
        pasted,
        performance_forms,
        performances,
        profile,
        public,
        records,
        recovery,
        riders,
        saved_views,
        scores,
        second_steps,
        sendings,
        series,
        sign,
        statistics,
        timing,
        today,
        tours,
        work_forms,
        works,
    )
else:  # the same names, each loaded when an address of it is first asked for
    globals().update(modules_of("catalogue.web.views"))

# /c/<composer>/works/
work_addresses: list[URLPattern] = [
    path("", works.work_list, name="work-list"),
    path("new/", work_forms.work_new, name="work-new"),
    path("suggested/", works.work_suggested, name="work-suggested"),
    path("<int:work>/", works.work_detail, name="work-detail"),
    path("<int:work>/edit/", work_forms.work_edit, name="work-edit"),
    path("<int:work>/delete/", works.work_delete, name="work-delete"),
    path("<int:work>/restore/", works.work_restore, name="work-restore"),
    path("<int:work>/timing/", timing.timing_detail, name="timing-detail"),
    path("<int:work>/timing/edit/", timing.timing_edit, name="timing-edit"),
    path("<int:work>/timing/reading/", timing.timing_reading, name="timing-reading"),
    path("<int:work>/timing/midi/", click.timing_midi, name="timing-midi"),
    path("<int:work>/timing/click/", click.timing_click, name="timing-click"),
    path("<int:work>/timing/click/file/", click.timing_click_file, name="timing-click-file"),
    path("<int:work>/timing/set/", click.timing_set, name="timing-set"),
    path("<int:work>/electronics/", electronics.electronics, name="electronics"),
    path("<int:work>/electronics/package/", electronics.electronics_package, name="electronics-package"),
    path("<int:work>/electronics/check/", electronics.electronics_check, name="electronics-check"),
    path("<int:work>/score/undo/", scores.score_undo, name="score-undo"),
    path("score/", scores.score_new, name="score-new"),
    path("score/keep/", scores.score_keep, name="score-keep"),
    path("export/<slug:suffix>/", exports.work_export, name="work-export"),
    path("reading/title/", work_forms.title_reading, name="title-reading"),
    path("reading/instrumentation/", work_forms.instrumentation_reading, name="instrumentation-reading"),
    path("reading/duration/", work_forms.duration_reading, name="duration-reading"),
    path("reading/movements/", work_forms.movements_reading, name="movements-reading"),
]

# /c/<composer>/performances/
performance_addresses: list[URLPattern] = [
    path("", performances.performance_list, name="performance-list"),
    path("new/", performance_forms.performance_new, name="performance-new"),
    path("years/", performances.performance_years, name="performance-years"),
    path("series/", series.series, name="series"),
    path("series/steps/<slug:step>/<slug:state>/", series.series_step, name="series-step"),
    path("statistics/", statistics.statistics, name="statistics"),
    path("statistics/<slug:table>/<slug:suffix>/", statistics.statistics_export, name="statistics-export"),
    path("tour/", tours.tour_new, name="tour-new"),
    path("<int:performance>/", performances.performance_detail, name="performance-detail"),
    path("<int:performance>/event.ics", feeds.performance_event, name="performance-event"),
    path("<int:performance>/edit/", performance_forms.performance_edit, name="performance-edit"),
    path("<int:performance>/steps/<slug:step>/<slug:state>/", performances.performance_step, name="performance-step"),
    path("<int:performance>/delete/", performances.performance_delete, name="performance-delete"),
    path("<int:performance>/restore/", performances.performance_restore, name="performance-restore"),
    path("export/<slug:suffix>/", exports.performance_export, name="performance-export"),
    path("reading/tour/", tours.tour_reading, name="tour-reading"),
    path("reading/when/", performance_forms.when_reading, name="when-reading"),
    path("reading/where/", performance_forms.where_reading, name="where-reading"),
    path("reading/performers/", performance_forms.performers_reading, name="performers-reading"),
]

# /c/<composer>/calls/
call_addresses: list[URLPattern] = [
    path("", calls.call_list, name="call-list"),
    path("new/", calls.call_new, name="call-new"),
    path("degrees/", packs.degree_list, name="degree-list"),
    path("outcomes/", outcomes.outcome_list, name="outcome-list"),
    path("<int:call>/", calls.call_detail, name="call-detail"),
    path("<int:call>/edit/", calls.call_edit, name="call-edit"),
    path("<int:call>/choice/", choices.call_choice, name="call-choice"),
    path("<int:call>/set/", choices.call_set, name="call-set"),
    path("<int:call>/pack/", packs.call_pack, name="call-pack"),
    path("<int:call>/pack/prepare/", packs.call_prepare, name="call-prepare"),
    path("<int:call>/pack/reuse/", packs.call_reuse, name="call-reuse"),
    path("<int:call>/pack/file/", packs.call_pack_file, name="call-pack-file"),
    path("<int:call>/pack/send/", packs.call_send, name="call-send"),
    path("<int:call>/pack/sent/<int:number>/", packs.call_sent_file, name="call-sent-file"),
    path("<int:call>/pack/referees/", packs.call_referees, name="call-referees"),
    path("<int:call>/choose/", calls.call_choose, name="call-choose"),
    path("<int:call>/sent/", calls.call_sent, name="call-sent"),
    path("<int:call>/delete/", calls.call_delete, name="call-delete"),
    path("<int:call>/restore/", calls.call_restore, name="call-restore"),
]

# /c/<composer>/documents/
document_addresses: list[URLPattern] = [
    path("", documents.document_list, name="document-list"),
    path("<slug:kind>/", documents.document, name="document"),
    path("<slug:kind>/file/", documents.document_file, name="document-file"),
    path("<slug:kind>/send/", sendings.document_send, name="document-send"),
]

# /c/<composer>/records/
record_addresses: list[URLPattern] = [
    path("", records.record_index, name="record-index"),
    path("pictures/<int:picture>/file/", records.picture_file, name="picture-file"),
    path("files/<int:storedfile>/file/", records.stored_file, name="stored-file"),
    path("files/<int:storedfile>/score/", scores.stored_score, name="stored-score"),
    path("papers-sent/<int:sending>/file/", sendings.sent_paper, name="sent-paper"),
    path("<slug:sort>/", records.record_list, name="record-list"),
    path("<slug:sort>/export/<slug:suffix>/", exports.record_export, name="record-export"),
    path("<slug:sort>/alike/", records.record_alike, name="record-alike"),
    path("<slug:sort>/new/", records.record_new, name="record-new"),
    path("<slug:sort>/<int:record>/", records.record_detail, name="record-detail"),
    path("<slug:sort>/<int:record>/edit/", records.record_edit, name="record-edit"),
    path("<slug:sort>/<int:record>/delete/", records.record_delete, name="record-delete"),
]

# /c/<composer>/riders/
rider_addresses: list[URLPattern] = [
    path("<int:rider>/send/", riders.rider_send, name="rider-send"),
    path("sent/<int:ridersending>/withdraw/", riders.rider_withdraw, name="rider-withdraw"),
]

# /c/<composer>/hires/
hire_addresses: list[URLPattern] = [
    path("<int:hire>/list/", hires.hire_list, name="hire-list"),
    path("<int:hire>/sent/", hires.hire_sent, name="hire-sent"),
    path("<int:hire>/received/", hires.hire_received, name="hire-received"),
    path("<int:hire>/back/", hires.hire_back, name="hire-back"),
]

# /c/<composer>/links/
link_addresses: list[URLPattern] = [
    path("", file_links.link_list, name="link-list"),
    path("new/", file_links.link_new, name="link-new"),
    path("<int:filelink>/shut/", file_links.link_shut, name="link-shut"),
]

# /c/<composer>/profile/
profile_addresses: list[URLPattern] = [
    path("", profile.profile, name="profile"),
    path("edit/", profile.profile_edit, name="profile-edit"),
    path("look/", look.look, name="look"),
    path("look/shown/", look.look_shown, name="look-shown"),
    path("look/leave/", houses.house_leave, name="house-leave"),
    path("public/", public.publishing, name="publishing"),
    path("members/", members.member_list, name="member-list"),
    path("members/<int:member>/", members.member_change, name="member-change"),
    path("members/<int:member>/remove/", members.member_remove, name="member-remove"),
    path("members/<int:member>/code/", members.member_code, name="member-code"),
    path("hand-over/", handovers.hand_over_page, name="hand-over"),
    path("backups/", backups.backup_list, name="backup-list"),
    path("backups/<str:backup>/", backups.backup_file, name="backup-file"),
]

# /c/<composer>/calendar/
calendar_addresses: list[URLPattern] = [
    path("", calendars.calendar_page, name="calendar-page"),
    path("make/", calendars.calendar_make, name="calendar-make"),
    path("public/", calendars.calendar_public, name="calendar-public"),
    path("<int:address>/shut/", calendars.calendar_shut, name="calendar-shut"),
]

# /c/<composer>/import/
import_addresses: list[URLPattern] = [
    path("", imports.import_new, name="import-new"),
    path("pasted/", pasted.pasted_new, name="pasted-new"),
    path("<int:batch>/", imports.import_batch, name="import-batch"),
    path("<int:batch>/words/", pasted.pasted_review, name="pasted-review"),
    path("<int:batch>/read/", imports.import_read, name="import-read"),
    path("<int:batch>/keep/", imports.import_keep, name="import-keep"),
    path("<int:batch>/undo/", imports.import_undo, name="import-undo"),
    path("<int:batch>/drop/", imports.import_drop, name="import-drop"),
]

# /c/<composer>/duplicates/
duplicate_addresses: list[URLPattern] = [
    path("", duplicates.duplicates, name="duplicates"),
    path("merge/", duplicates.duplicate_merge, name="duplicate-merge"),
    path("apart/", duplicates.duplicate_apart, name="duplicate-apart"),
    path("<int:merge>/undo/", duplicates.merge_undo, name="merge-undo"),
]

# /c/<composer>/changes/
history_addresses: list[URLPattern] = [
    path("<slug:kind>/<int:record>/", histories.history, name="history"),
    path("<slug:kind>/<int:record>/back/", histories.history_back, name="history-back"),
    path("<slug:kind>/<int:record>/rows/", histories.rows_back, name="history-rows"),
]

# /c/<composer>/deleted/
deleted_addresses: list[URLPattern] = [
    path("", histories.deleted_list, name="deleted-list"),
    path("<slug:kind>/<int:record>/restore/", histories.deleted_restore, name="deleted-restore"),
]

# /c/<composer>/views/
view_addresses: list[URLPattern] = [
    path("<slug:table>/keep/", saved_views.view_keep, name="view-keep"),
    path("<int:savedview>/drop/", saved_views.view_drop, name="view-drop"),
]

# /c/<composer>/
catalogue_addresses: list[URLPattern | URLResolver] = [
    path("", today.today, name="today"),
    path("missing/<slug:lack>/", today.lack_list, name="lack-list"),
    path("works/", include(work_addresses)),
    path("performances/", include(performance_addresses)),
    path("import/", include(import_addresses)),
    path("views/", include(view_addresses)),
    path("changes/", include(history_addresses)),
    path("deleted/", include(deleted_addresses)),
    path("duplicates/", include(duplicate_addresses)),
    path("calls/", include(call_addresses)),
    path("records/", include(record_addresses)),
    path("riders/", include(rider_addresses)),
    path("hires/", include(hire_addresses)),
    path("links/", include(link_addresses)),
    path("documents/", include(document_addresses)),
    path("exposure/", exposure.exposure, name="exposure"),
    path("profile/", include(profile_addresses)),
    path("calendar/", include(calendar_addresses)),
]

# /house/
house_addresses: list[URLPattern] = [
    path("", house.house_today, name="house-today"),
    path("works/", house.house_works, name="house-works"),
    path("works/export/<slug:suffix>/", house.house_work_export, name="house-work-export"),
    path("performances/", house.house_performances, name="house-performances"),
    path("performances/export/<slug:suffix>/", house.house_performance_export, name="house-performance-export"),
    path("take-over/", handovers.take_over_page, name="take-over"),
    path("members/", house_members.house_members, name="house-members"),
    path("letterheads/", houses.house_list, name="house-list"),
    path("letterheads/new/", houses.house_new, name="house-new"),
    path("letterheads/<int:house>/", houses.house_edit, name="house-edit"),
    path("letterheads/<int:house>/logo/", houses.house_logo, name="house-logo"),
    path("letterheads/<int:house>/dissolve/", houses.house_dissolve, name="house-dissolve"),
    path("deadlines/", house_deadlines.house_deadlines, name="house-deadlines"),
    path("deadlines/export/<slug:suffix>/", house_deadlines.house_deadline_export, name="house-deadline-export"),
    path("hires/", house.house_hires, name="house-hires"),
    path("hires/export/<slug:suffix>/", house.house_hire_export, name="house-hire-export"),
    path("calls/", house.house_calls, name="house-calls"),
    path("calls/export/<slug:suffix>/", house.house_call_export, name="house-call-export"),
]

urlpatterns: list[URLPattern | URLResolver] = [
    path("", composers.home, name="home"),
    path("composers/", composers.composer_list, name="composer-list"),
    path("house/", include(house_addresses)),
    path("c/<slug:composer>/", include(catalogue_addresses)),
    path("feeds/<str:token>/<slug:name>.ics", feeds.feed, name="feed"),
    path("calendars/<slug:name>.ics", feeds.public_feed, name="public-feed"),
    path("public/<slug:name>/", public.public_composer, name="public-composer"),
    path("public/<slug:name>/works/<int:work>/", public.public_work, name="public-work"),
    path("public/<slug:name>/performances/<int:performance>/", public.public_performance, name="public-performance"),
    path("public/<slug:name>/<slug:group>.<slug:format>", public.public_news, name="public-news"),
    path("sitemap.xml", public.site_map, name="site-map"),
    path("sitemap-<int:number>.xml", public.site_map, name="site-map-part"),
    path("robots.txt", public.robots, name="robots"),
    path("shared/<str:token>/", file_links.shared_files, name="shared-files"),
    path("shared/<str:token>/<int:number>/", file_links.shared_file, name="shared-file"),
    path("riders/<str:token>/", riders.rider_answer, name="rider-answer"),
    path("riders/<str:token>/<slug:format>/", riders.rider_file, name="rider-file"),
    path("sign-in/", sign.sign_in, name="sign-in"),
    path("sign-in/code/", second_steps.sign_in_code, name="sign-in-code"),
    path("sign-out/", sign.sign_out, name="sign-out"),
    path("start/<str:token>/", entry.start, name="start"),
    path("join/<str:token>/", entry.join, name="join"),
    path("enter/<str:token>/", entry.enter, name="enter"),
    path("account/", account.account, name="account"),
    path("account/address/", account.mail_address, name="mail-address"),
    path("account/second-step/", second_steps.second_step, name="second-step"),
    path("account/second-step/begin/", second_steps.second_step_begin, name="second-step-begin"),
    path("account/second-step/confirm/", second_steps.second_step_confirm, name="second-step-confirm"),
    path("account/second-step/codes/", second_steps.second_step_codes, name="second-step-codes"),
    path("account/second-step/off/", second_steps.second_step_off, name="second-step-off"),
    path("account/recover/", recovery.recover, name="recover"),
    path("account/recover/sent/", recovery.recover_sent, name="recover-sent"),
    path("account/recover/<str:uidb64>/<str:token>/", recovery.recover_set, name="recover-set"),
    path("account/password/", account.password_change, name="password-change"),
    path("faces/<slug:release>/faces.css", faces.face_sheet, name="face-sheet"),
    path("faces/<slug:release>/<slug:language>/<slug:family>/<slug:slice>.otf", faces.face_file, name="face-file"),
    path("health/live/", operations.alive, name="alive"),
    path("health/ready/", operations.ready, name="ready"),
    path("metrics/", operations.metrics, name="metrics"),
    path("help/", help.help_page, name="help"),
    path("help/keyboard/", help.keyboard, name="keyboard"),
]
