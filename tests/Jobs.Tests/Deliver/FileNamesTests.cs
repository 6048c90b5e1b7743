using System.Text;
using Athwart.Jobs.Deliver.Naming;
using CsCheck;

namespace Athwart.Jobs.Tests.Deliver;

public sealed class FileNamesTests
{
    [Theory]
    [InlineData("gate: open/close?", "gate- open-close-")]
    [InlineData("  boat pass...  ", "boat pass")]
    [InlineData("CON", "_CON")]
    [InlineData("nul.take", "_nul.take")]
    [InlineData("console", "console")]
    [InlineData("..", "unnamed")]
    [InlineData("", "unnamed")]
    [InlineData("écluse", "écluse")]
    [InlineData("a\u0007b\tc", "a-b-c")]
    public void WhatFileSystemsRefuseIsReplaced(string wanted, string expected) => Assert.Equal(expected, FileNames.Clean(wanted));

    [Fact]
    public void NamesThatDifferOnlyByCaseAreNumbered()
    {
        var names = new FileNames();

        Assert.Equal(["Gate", "gate-2", "GATE-3"], new[] { "Gate", "gate", "GATE" }.Select(names.Unique), StringComparer.Ordinal);
    }

    [Fact]
    public void AnOverLongNameIsCutBetweenLettersAndKeepsItsNumber()
    {
        var names = new FileNames();
        var wanted = string.Concat(Enumerable.Repeat("e\u0301🌊", 100));

        var first = names.Unique(wanted);
        var second = names.Unique(wanted);

        Assert.InRange(Encoding.UTF8.GetByteCount(first), FileNames.LongestBaseName - 8, FileNames.LongestBaseName);
        Assert.InRange(Encoding.UTF8.GetByteCount(second), 1, FileNames.LongestBaseName);
        Assert.EndsWith("-2", second, StringComparison.Ordinal);
        Assert.DoesNotContain('\uFFFD', first);
    }

    [Fact]
    public void AnyTextBecomesANameThatCanBeWritten()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        Gen.String.Sample(
            wanted =>
            {
                var name = FileNames.Clean(wanted);
                var path = folder.File(name + ".recipe.json.part");
                File.WriteAllText(path, "");
                var there = File.Exists(path) && Path.GetDirectoryName(path) == folder.Path;
                File.Delete(path);
                return there && Encoding.UTF8.GetByteCount(name) <= FileNames.LongestBaseName;
            },
            iter: 500,
            threads: 1);
    }
}
