// The year's plan as a calendar, read by a library that many calendars on the web are built on.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';

export const CALENDAR_CHECKS = ['an event for every meeting', 'the event says what the plan says', 'events keep apart'];

const HOLIDAY = '2026-05-25..2026-05-26=Memorial Day; "long", week\\end';

export function check_calendar(checks, program, folder) {
    const file = join(folder, 'year.ics');
    const { plan } = program.json(['week', 'plan', '--holiday', HOLIDAY, '--calendar', file]);
    const calendar = new ICAL.Component(ICAL.parse(readFileSync(file, 'utf8')));
    const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
    const meetings = plan.weeks.filter((week) => !week.off);
    checks.that('an event for every meeting', events.length === meetings.length && meetings.length > 40,
        `${events.length} events, ${meetings.length} meetings`);
    const faults = [];
    meetings.forEach((week, n) => {
        const event = events[n];
        if (event?.startDate.toString() !== week.day || !event.startDate.isDate) faults.push(`${week.day}: another day`);
        if (event?.summary !== week.title) faults.push(`${week.day}: ${event?.summary}`);
        const missing = week.points.filter((point) => !event?.description?.includes(point.title));
        if (missing.length > 0) faults.push(`${week.day}: without ${missing[0].title}`);
    });
    checks.none('the event says what the plan says', faults, 'the calendar');
    checks.that('events keep apart', new Set(events.map((one) => one.uid)).size === events.length, 'two with one UID');
}
