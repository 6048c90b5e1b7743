using System.Text.RegularExpressions;

namespace Athwart.House.Tests;

/// <summary>One word, one meaning: the words of the trade that code, command line and pages use stand in the glossary once.</summary>
public sealed partial class GlossaryTests
{
    private static string[] Terms { get; } =
    [
        "kit", "rig", "card", "session", "take", "role", "mid", "side", "left", "right", "side level", "mono fold", "azimuth", "coverage",
        "line-up", "rig profile", "finding", "treatment", "cut", "effect", "delivery", "library", "original", "recipe", "manifest", "trim",
        "mono pair", "split take", "marker", "frame", "sample", "channel", "sample rate", "word length", "full scale", "step", "decibel",
        "dBFS", "dBTP", "sample peak", "true peak", "LUFS", "LU", "momentary loudness", "short-term loudness", "integrated loudness",
        "loudness range", "RMS", "DC offset", "noise floor", "correlation", "crest factor", "flat top", "digital silence", "dither",
        "time reference", "coding history", "bext", "iXML", "ds64", "RF64",
    ];

    public static TheoryData<string> Words() => [.. Terms];

    [Theory]
    [MemberData(nameof(Words))]
    public void TheWord_HasOneMeaning(string word) => Assert.Single(Entries(), entry => entry == word);

    [Fact]
    public void NoWord_IsExplainedTwice()
    {
        var twice = Entries().GroupBy(word => word, StringComparer.OrdinalIgnoreCase).Where(group => group.Count() > 1).Select(group => group.Key);

        Assert.Empty(twice);
    }

    private static List<string> Entries() =>
        [.. EntryPattern().Matches(Repository.Read("docs/glossary.md")).Select(match => match.Groups["it"].Value)];

    // An entry is a row of a table that starts with the word in bold, an anchor before it.
    [GeneratedRegex(@"(?m)^\| (?:<a id=""[^""]+""></a>)?\*\*(?<it>[^*]+)\*\* \|", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10000)]
    private static partial Regex EntryPattern();
}
