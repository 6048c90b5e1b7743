using Athwart.Jobs.Pages;

namespace Athwart.Jobs.PlanRig;

/// <summary>The frame of the plan's pages.</summary>
internal static class PlanPage
{
    private const string Layout = """
        *{box-sizing:border-box}
        body{margin:0;background:var(--paper);color:var(--ink);font:16.5px/1.55 system-ui,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
        main{max-width:1160px;margin:0 auto;padding:56px 32px 80px}
        h1{font:500 40px/1.15 ui-serif,Georgia,serif;margin:0 0 8px;text-wrap:balance}
        h2{font:500 25px/1.2 ui-serif,Georgia,serif;margin:0 0 6px}
        section{margin:0 0 48px}
        .say{color:var(--muted);max-width:46em;margin:0 0 14px}figure+.say{margin-top:36px}
        .figures{display:grid;gap:24px;grid-template-columns:repeat(auto-fit,minmax(340px,1fr))}
        .one .figures{grid-template-columns:minmax(0,760px)}
        figure{margin:0;background:var(--card);border:1px solid var(--line);border-radius:4px;padding:18px 20px 12px}
        figcaption{font-size:14px;color:var(--muted);margin-top:8px}.one figcaption{display:none}.places td:nth-child(2){min-width:14em}.places td:nth-child(3){min-width:8em}
        .scroll{overflow-x:auto}table{border-collapse:collapse;width:100%;background:var(--card);border:1px solid var(--line)}
        th{text-align:left;font-weight:500}thead th{color:var(--mid)}.many thead th{min-width:13em}
        th,td{overflow-wrap:break-word;padding:8px 16px;border-bottom:1px solid var(--line);vertical-align:top;line-height:1.4}
        tbody th[scope=row]{font-weight:400;color:var(--muted);width:17em}.group{font-weight:600;padding-top:18px}
        ul,ol{padding-left:1.2em;margin:0}li{margin:0 0 6px;max-width:52em}
        .care{border-left:4px solid var(--caution);padding:4px 0 4px 20px}.care h2{color:var(--caution)}
        .num{text-align:right;white-space:nowrap}.star{color:var(--side);font-weight:600}
        .program{color:var(--muted);font-size:14px}
        @media (max-width:640px){main{padding:28px 16px 48px}h1{font-size:28px}figure{padding:10px}}
        @page{margin:12mm}@media print{body{background:none;font-size:10pt}main{max-width:none;padding:0}figure,tr,li{break-inside:avoid}h2{break-after:avoid}figure,table{border:0;background:none;padding:0}.one .figures{grid-template-columns:130mm}}
        """;

    public static void Begin(HtmlText page, string title, string @class) => page
        .Raw("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">")
        .Add($"<title>{title}</title>").Raw($"<style>{PageTheme.Css}{Layout}</style></head>")
        .Add($"<body class=\"{@class}\"><main>\n<h1>{title}</h1>\n");

    public static void End(HtmlText page) => page.Add($"<p class=\"program\">{ProgramName.WithVersion}</p>\n</main></body></html>\n");

    public static void Lines(HtmlText page, string heading, IReadOnlyList<string> lines, string @class)
    {
        if (lines.Count == 0)
            return;
        page.Add($"<section class=\"{@class}\"><h2>{heading}</h2><ul>");
        foreach (var line in lines)
            page.Add($"<li>{line}</li>");
        page.Raw("</ul></section>\n");
    }
}
