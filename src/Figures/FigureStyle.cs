namespace Athwart.Figures;

/// <summary>The style sheet every page that shows our figures needs once.</summary>
public static class FigureStyle
{
    /// <summary>Rules for the classes of the figures; colours come from the properties of <see cref="Palette.ToCss"/>.</summary>
    public const string Css = """
        .figure{display:block;width:100%;height:auto;overflow:visible}
        .figure text{font:13px system-ui,sans-serif;fill:var(--muted);font-variant-numeric:tabular-nums}
        .figure .caption{fill:var(--ink);font-weight:600}
        .figure .ofmid{fill:var(--mid);font-weight:600}.figure .ofside{fill:var(--side);font-weight:600}
        .figure .plate,.spark .plate{fill:none;stroke:var(--line);stroke-width:1}
        .grid{stroke:var(--line);stroke-width:1}
        .grid.fine{stroke-dasharray:2 4}
        .axis{stroke:var(--muted);stroke-width:1}
        .guide{stroke:var(--ink);stroke-width:1;stroke-dasharray:5 4;opacity:.65}
        .peak{fill-opacity:.38;stroke-width:.7;stroke-opacity:.55}.rms{stroke:none}
        .mid{fill:var(--mid);stroke:var(--mid)}.side{fill:var(--side);stroke:var(--side)}
        .trace{fill:none;stroke:var(--ink);stroke-width:1.6;stroke-linejoin:round}
        .riskzone{fill:var(--fault);fill-opacity:.09}.figure .risk{fill:var(--fault)}
        .figure .halo{paint-order:stroke;stroke:var(--card);stroke-width:4px;stroke-linejoin:round}
        .span{stroke-width:2}
        .band{stroke:none;fill-opacity:.13}.edge{stroke-width:1;stroke-dasharray:3 3}
        .note{fill:var(--note);stroke:var(--note)}.caution{fill:var(--caution);stroke:var(--caution)}.fault{fill:var(--fault);stroke:var(--fault)}
        .mark .shape{fill:var(--card);stroke-width:1.5}.mark .shape.fault{fill:var(--fault)}
        .mark text{font:600 11.5px system-ui,sans-serif;stroke:none}
        .figure .mark text.note,.mark text.note{fill:var(--note)}.figure .mark text.caution,.mark text.caution{fill:var(--caution)}.figure .mark text.fault,.mark text.fault{fill:var(--card)}
        .bar .track{fill:var(--line)}.bar .fill{fill:var(--mid)}.bar .over{fill:var(--fault)}
        .spark{display:block;width:100%;height:100%}
        .trail{fill:none;stroke:var(--side);stroke-width:2.4;stroke-linecap:round}.trail.faint{stroke-opacity:.45}
        .curve{fill:none;stroke:var(--ink);stroke-width:2;stroke-linejoin:round;stroke-linecap:round}
        .curve.mid{stroke:var(--mid)}.curve.side{stroke:var(--side);stroke-dasharray:9 5}.curve.left{stroke-width:2.6}.curve.right{stroke-dasharray:1.5 5;stroke-width:2.6}
        .curve.opposed{stroke-width:1.3;stroke-opacity:.8}
        .ring{fill:none;stroke:var(--line);stroke-width:1}.ring.edge-ring{stroke:var(--muted)}
        .figure .sign{font-size:19px;font-weight:700}.figure .ofleft,.figure .ofright{fill:var(--ink);font-weight:600}
        .coverage-edge{stroke:var(--side);stroke-width:1.6;stroke-dasharray:7 4}
        .block{fill:var(--ink);fill-opacity:.75}.block.mid{fill:var(--mid);fill-opacity:.8}.block.side{fill:var(--side);fill-opacity:.8}
        .rung{stroke:var(--ink);stroke-width:1.6}
        .dot{fill:var(--muted)}.place{fill:var(--card);stroke:var(--ink);stroke-width:1.3}.place.best{fill:var(--side);stroke:var(--side)}
        .figure .place-number{font-size:11.5px;fill:var(--ink)}.figure .place-number.best{fill:var(--card);font-weight:700}
        .wedge{fill:var(--mid);fill-opacity:.13;stroke:var(--mid);stroke-width:1.8}
        .sight{stroke:var(--side);stroke-width:1;stroke-dasharray:3 4}.subject{fill:var(--side)}
        .path{stroke:var(--side);stroke-width:2.6}.arrow{fill:var(--side)}
        .spot{fill:var(--ink);stroke:var(--ink);stroke-width:1.6}.spot.mid{fill:var(--mid);stroke:var(--mid)}.spot.side{fill:var(--side);stroke:var(--side)}.spot.hollow{fill:var(--card)}
        .whisker{stroke:var(--ink);stroke-width:1.6}.whisker.mid{stroke:var(--mid)}.whisker.side{stroke:var(--side)}
        .block.quiet{fill:var(--muted);fill-opacity:.5}.outline{fill:none;stroke-width:2}
        .figure .ofnote{fill:var(--note);font-weight:600}.figure .ofcaution{fill:var(--caution);font-weight:600}.figure .offault{fill:var(--fault);font-weight:600}
        .body{fill:var(--mid)}.lobe{fill:var(--card);stroke:var(--side);stroke-width:1.8}.figure .lobe-sign{fill:var(--side);font-weight:700;font-size:15px}
        """;

    /// <summary>What turns the light pictures over at night: put once in the body, then '.heat{filter:url(#night)}' in the dark rules.</summary>
    public const string NightFilter = """<svg xmlns="http://www.w3.org/2000/svg" width="0" height="0" aria-hidden="true" style="position:absolute"><filter id="night" color-interpolation-filters="sRGB"><feComponentTransfer><feFuncR type="table" tableValues="1 0"/><feFuncG type="table" tableValues="1 0"/><feFuncB type="table" tableValues="1 0"/></feComponentTransfer></filter></svg>""";
}
