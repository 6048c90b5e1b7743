using Athwart.Jobs.Pages;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>How the report looks: one calm column, day and night, screen and paper.</summary>
internal static class ReportStyle
{
    /// <summary>The style sheet. Paper always gets the day colours; class 'day' or 'night' on the root overrides what the system prefers.</summary>
    public static string Css { get; } = PageTheme.Css + Layout + Print;

    private const string Layout = """
        *{box-sizing:border-box}
        html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
        body{margin:0;background:var(--paper);color:var(--ink);font:17px/1.6 system-ui,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
        main{max-width:1060px;margin:0 auto;padding:72px 32px 96px}
        h1,h2{font-family:ui-serif,Georgia,serif;font-weight:500;letter-spacing:-.01em;text-wrap:balance}
        h1{font-size:clamp(34px,5vw,54px);line-height:1.1;margin:0 0 28px}
        h2{font-size:30px;line-height:1.2;margin:0 0 14px}
        h3{font:600 15px/1.4 system-ui,sans-serif;margin:0 0 12px}
        p{margin:0 0 12px}
        a{color:var(--mid);text-underline-offset:3px;text-decoration-thickness:1px}
        a:focus-visible,audio:focus-visible{outline:3px solid var(--mid);outline-offset:3px;border-radius:4px}
        .skip{position:absolute;left:-999px;top:8px;background:var(--card);padding:8px 16px}
        .skip:focus{left:16px}
        .kicker{color:var(--side);font-size:14px;font-weight:600;letter-spacing:.04em;margin:0 0 10px}
        .lead{font-size:19px;max-width:44em;color:var(--ink)}
        .facts{display:flex;flex-wrap:wrap;gap:14px 40px;margin:0 0 22px}
        .facts dt{font-size:13.5px;color:var(--muted);line-height:1.4}
        .facts dd{margin:0;line-height:1.45}
        .cover{padding-bottom:40px}
        .before{margin-top:30px;padding:20px 24px 10px;border:1px solid var(--line);border-left:4px solid var(--caution);border-radius:3px;background:var(--card)}
        .before h2{font:600 15px/1.4 system-ui,sans-serif;letter-spacing:0;margin:0 0 8px;color:var(--caution)}
        .before ul,.conventions ul{margin:0 0 8px;padding-left:1.15em}
        .before li,.conventions li{margin-bottom:6px}
        table{border-collapse:collapse;width:100%}
        th{text-align:left;font-weight:500}
        thead th{font-size:13.5px;color:var(--muted);font-weight:400;line-height:1.35;vertical-align:bottom;padding:0 14px 10px 0;border-bottom:1px solid var(--muted)}
        tbody th,tbody td{padding:11px 14px 11px 0;border-bottom:1px solid var(--line);vertical-align:middle;line-height:1.4}
        th:last-child,td:last-child{padding-right:0}
        .overview{margin-bottom:64px}
        .overview td,.overview thead th{white-space:nowrap}
        .overview td.tally{white-space:normal;min-width:6.5em}
        .overview th.name{white-space:normal;min-width:12em;max-width:20em}
        .overview tbody th{padding-right:24px}
        .overview tbody th.name{position:relative;padding-left:30px}.overview .no{position:absolute;left:0;color:var(--muted);font-weight:400}.overview .tally span{white-space:nowrap;margin-right:.5em}
        .overview tbody .shape{width:170px;height:58px;padding:6px 20px 6px 0}
        .overview .spark{width:150px;height:44px}
        .card{background:var(--card);border:1px solid var(--line);border-radius:4px;padding:44px 48px 40px;margin:0 0 48px}
        .meaning{max-width:46em;color:var(--muted)}.meaning strong{color:var(--ink);font-weight:600}
        .audition{display:flex;align-items:center;gap:24px;margin:24px 0 8px}
        .audition audio{flex:1 1 380px;max-width:440px;min-width:240px;height:44px}
        .audition p{flex:1 1 300px;font-size:14.5px;line-height:1.5;color:var(--muted);margin:0}
        .plate-row{margin:30px 0 0}
        .clear{margin:18px 0 0;color:var(--muted)}
        .findings{margin:28px 0 4px}
        .findings ol{list-style:none;margin:0;padding:0;display:grid;gap:16px}
        .findings li{display:grid;grid-template-columns:28px 1fr;gap:14px}
        .findings li p{margin:0 0 3px;max-width:46em}
        .findings .mark{width:28px;height:28px;overflow:visible}
        .where,.quiet{color:var(--muted)}
        .remedy strong{font-weight:600}
        .word-note{color:var(--note)}.word-caution{color:var(--caution)}.word-fault{color:var(--fault)}
        .pair{display:grid;grid-template-columns:minmax(280px,1fr) 1fr;gap:28px 48px;margin:40px 0 0;align-items:start}
        .pair .numbers:only-child{grid-column:1/-1}
        .levels thead th,.levels tbody th,.levels tbody td{font-size:15.5px;padding-top:8px;padding-bottom:8px}
        .levels thead th{font-size:13.5px;padding-top:0}
        .levels .value{text-align:right;white-space:nowrap}
        .levels .bar-cell{width:34%;padding-left:6px}
        .levels .bar{display:block;width:100%;height:auto}
        .scale{display:flex;justify-content:space-between;font-size:12px}
        .numbers h3{margin:30px 0 4px}
        .figure-number{font:500 32px/1.2 ui-serif,Georgia,serif;margin:0 0 4px}
        .files{margin:40px 0 0}
        .files th{width:8em;color:var(--muted);vertical-align:top}
        .files td{vertical-align:top;font-size:15.5px}
        .files .hash{font:13.5px/1.7 ui-monospace,monospace;color:var(--muted);white-space:nowrap;text-align:right}
        .conventions{max-width:46em;color:var(--muted);padding-top:8px}
        .conventions h2{color:var(--ink);font-size:24px}
        .program{font-size:14px;margin-top:28px}
        @media (max-width:900px){main{padding:48px 20px 64px}.card{padding:32px 28px 30px}.overview .shape{display:none}.pair{grid-template-columns:1fr}.vector{max-width:420px}}
        @media (max-width:640px){.overview thead{display:none}.overview tr{display:flex;flex-wrap:wrap;gap:0 16px;padding:10px 0;border-bottom:1px solid var(--line)}.overview tbody th,.overview tbody td{border:0;padding:2px 0}.overview th.name{width:100%;max-width:none}.audition{flex-direction:column;align-items:stretch}.audition audio{max-width:none;flex-basis:44px}.audition p{flex-basis:auto}.card{padding:24px 18px}.files .hash{display:none}}
        """;

    private const string Print = """
        @page{size:A4;margin:13mm 14mm 11mm}
        @media print{:root{color-scheme:light}body{background:none;font-size:10.5pt;line-height:1.5}main{max-width:none;padding:0}
        h1{font-size:28pt}h2{font-size:18pt}.lead{font-size:11.5pt}.skip,.audition{display:none}
        a{color:inherit;text-decoration:none}
        .card{border:0;border-radius:0;padding:0;margin:0;background:none;break-before:page}.before{background:none}
        .overview{margin-bottom:24pt}.overview .shape{display:table-cell}.overview tbody .shape{width:120px}.overview .spark{width:110px;height:34px}
        .pair{grid-template-columns:250px 1fr;gap:12pt 24pt;margin-top:13pt}
        .plate-row{margin-top:13pt}.meaning{margin-bottom:0}.findings{margin-top:12pt}.findings ol{gap:7pt}.vector{max-width:250px}.card h2{margin-bottom:6pt}.facts{margin-bottom:10pt;gap:6pt 22pt}.numbers h3{margin-top:10pt}.figure-number{font-size:17pt}.numbers p{margin-bottom:4pt}.plate-row,.pair,.findings li,.files,.before,tr{break-inside:avoid}h2,h3{break-after:avoid}
        .facts dt,.overview thead th,.levels thead th{font-size:9pt}.levels tbody th,.levels tbody td,.files td,.overview td,.overview th{font-size:9.5pt}
        tbody th,tbody td{padding-top:5pt;padding-bottom:5pt}.files{margin-top:13pt}.files tbody th,.files tbody td{padding-top:3pt;padding-bottom:3pt}.files h3{margin-bottom:2pt}.files .hash{font-size:8.5pt}
        .levels tbody th,.levels tbody td{padding-top:2.5pt;padding-bottom:2.5pt}.conventions{break-inside:avoid;margin-top:24pt;max-width:none}
        *{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
        """;
}
