using Athwart.Jobs.Pages;

namespace Athwart.Jobs.PlanRig;

/// <summary>How the field sheet looks: dense, black on white, the same on screen as on paper.</summary>
internal static class FieldSheetStyle
{
    // 180 by 250 mm lie inside both A4 and Letter with margins that every printer leaves.
    public static string Css { get; } = PageTheme.Css + """
        @page{margin:9mm 12mm}
        *{box-sizing:border-box}
        body{margin:0;background:#fff;color:#111;line-height:1.36;font-family:system-ui,sans-serif;-webkit-print-color-adjust:exact;print-color-adjust:exact}
        main{width:186mm;margin:0 auto;padding:6mm 0}
        h1{font:500 2em/1.15 ui-serif,Georgia,serif;margin:0}
        h2{font:600 1em/1.3 system-ui,sans-serif;margin:.75em 0 .3em;border-bottom:.3mm solid #111;padding-bottom:.12em}
        header{display:flex;flex-wrap:wrap;align-items:baseline;gap:0 5mm;margin-bottom:1mm}
        header p{margin:0}.rig{flex-basis:100%;font-weight:600}
        .columns{column-count:2;column-gap:8mm}section,figure{break-inside:avoid}section{padding-top:.1mm}
        figure{margin:0}.figure{max-height:26em}
        table{border-collapse:collapse;width:100%}th{text-align:left;font-weight:500;color:#444;font-size:.88em}
        td,th{padding:.15em .6em .15em 0;vertical-align:top;border-bottom:.1mm solid #bbb}
        td:nth-child(3),td:nth-child(4){white-space:nowrap}
        p{margin:.3em 0 0}
        dl{margin:0}dl div{display:grid;grid-template-columns:5.8em 1fr;gap:.6em;padding:.08em 0}dt{color:#444}dd{margin:0}
        ol,ul{margin:0;padding-left:1.35em}li{margin:0 0 .18em}
        .care h2::before{content:"! ";font-weight:700}
        .foot{font-size:.8em;color:#444;margin-top:.6em;border-top:.1mm solid #bbb;padding-top:.25em}
        @media print{main{padding:0}}
        @media screen{body{background:#e9e6de}main{background:#fff;padding:9mm 12mm;width:210mm;min-height:270mm;margin:6mm auto;box-shadow:0 1px 5px #0003}}
        @media screen and (max-width:840px){main{width:auto;padding:5mm;margin:0}.columns{column-count:1}}
        """;
}
