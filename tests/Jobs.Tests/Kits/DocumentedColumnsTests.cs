using System.Runtime.CompilerServices;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Tests.Kits;

/// <summary>docs/kit.md says what the check does.</summary>
public sealed class DocumentedColumnsTests
{
    [Fact]
    public void EveryFigure_StandsInThePage_WithItsBoundsAndItsMember()
    {
        var page = Page();
        KitFigure[] figures = [.. SettingFigures.All, .. MicrophoneFigures.All, .. RecorderFigures.All, .. ProtectionFigures.All];
        Assert.All(figures, f => Assert.Contains(FormattableString.Invariant($"| `{f.Column}` | {f.Lowest} to {f.Highest} | {f.UsualLowest} to {f.UsualHighest} | `{f.Member}` |"), page, StringComparison.Ordinal));
    }

    [Fact]
    public void TheJsonOfThePage_IsAKit()
    {
        var json = Page().Split("```json\n")[1].Split("```")[0];
        Assert.Equal("small figure-8", KitText.Accepted(json).Microphones[0].Name);
    }

    [Fact]
    public void TheTableOfThePage_IsAPattern()
    {
        var text = Page().Split("```text\n")[1].Split('\n')[0];
        Assert.True(PatternText.TryParse(text, out _, out var rule), rule);
    }

    private static string Page([CallerFilePath] string here = "") => File.ReadAllText(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "docs", "kit.md"));
}
