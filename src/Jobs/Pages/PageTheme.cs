using Athwart.Figures;

namespace Athwart.Jobs.Pages;

/// <summary>The colours of our pages: day and night as the system prefers, paper always by day.</summary>
public static class PageTheme
{
    /// <summary>Palettes and figure rules; class 'day' or 'night' on the root overrides what the system prefers.</summary>
    public static string Css { get; } = $$$"""
        :root{ {{{Palette.Light.ToCss()}}};color-scheme:light dark}
        @media screen and (prefers-color-scheme:dark){:root:not(.day){ {{{Palette.Dark.ToCss()}}} }:root:not(.day) .heat{filter:url(#night)}}
        @media screen{:root.night{ {{{Palette.Dark.ToCss()}}};color-scheme:dark}:root.night .heat{filter:url(#night)}:root.day{color-scheme:light}}
        {{{FigureStyle.Css}}}
        """;
}
