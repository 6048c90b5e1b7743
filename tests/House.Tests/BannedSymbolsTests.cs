namespace Athwart.House.Tests;

/// <summary>The list of what the analyzer refuses is only worth something while the build hands it over.</summary>
public sealed class BannedSymbolsTests
{
    [Fact]
    public void TheBuild_HandsTheListToTheAnalyzer() =>
        Assert.Contains("BannedSymbols.txt", Repository.Read("Directory.Build.props"), StringComparison.Ordinal);

    [Fact]
    public void EveryLine_NamesASymbolAndSaysWhatToUse()
    {
        var bad = Repository.Read("BannedSymbols.txt").Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(line => !line.StartsWith("//", StringComparison.Ordinal))
            .Where(line => line.Length < 3 || line[1] != ':' || !"TMPFNE".Contains(line[0], StringComparison.Ordinal) || !line.Contains(';', StringComparison.Ordinal));

        Assert.Empty(bad);
    }
}
