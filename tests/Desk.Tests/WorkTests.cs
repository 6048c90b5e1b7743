using Athwart.Desk.Shaping;
using Athwart.Desk.Work;
using Athwart.Jobs.Cards;
using Athwart.Jobs.Shape;
using Athwart.Signals.Shaping;
using Athwart.Tests.Shared;

namespace Athwart.Desk.Tests;

/// <summary>What pages rely on: whose work is shown, which card is meant, where a step goes.</summary>
public sealed class WorkTests
{
    [Fact]
    public void Work_IsFoundByWhatItIsDoneTo()
    {
        using var folder = new TemporaryFolder();
        using var library = new OpenLibrary(new() { Library = folder.File("library"), Deliveries = folder.File("deliveries"), StateFolder = folder.File("state") });
        using var work = new Worklist(library, TimeProvider.System);
        var first = work.Add("Proving 'a'", "verify", "aaa", (_, _) => 1);
        var second = work.Add("Proving 'b'", "verify", "bbb", (_, _) => 2);

        Assert.Same(first, work.Newest("verify", "aaa"));
        Assert.Same(second, work.Newest("verify", "bbb"));
        Assert.Null(work.Newest("verify", "ccc"));
        Assert.Null(work.Newest("check", "aaa"));
        Assert.Same(work.Again(first), work.Newest("verify", "aaa"));
    }

    // A card put in later is seen; one taken out and put in again is the same place, and another one is never taken for it.
    [Fact]
    public void Cards_ComeAndGo_AndKeepTheirNumbers()
    {
        using var folder = new TemporaryFolder();
        string[] paths = [.. new[] { "chosen", "one", "two" }.Select(n => Directory.CreateDirectory(folder.File(n)).FullName)];
        List<string> mounted = [];
        var cards = new CardFolders([paths[0]], () => mounted);
        Assert.Equal([new(0, "", paths[0])], cards.Roots);

        mounted.Add(paths[1]);
        Assert.Equal([new(0, "", paths[0]), new(1, "", paths[1])], cards.Roots);
        mounted[0] = paths[2];
        Assert.Equal([new(0, "", paths[0]), new(2, "", paths[2])], cards.Roots);
        mounted.Insert(0, paths[1]);
        Assert.Equal([0, 1, 2], cards.Roots.Select(r => r.Root));
        Assert.Equal(paths[1], cards.FullPath(1, ""));
    }

    [Fact]
    public void ANewStep_GoesBeforeTheGuards_WhichNothingMayFollow()
    {
        TreatmentStep[] steps = [TreatmentStep.Of(new Swap()), TreatmentStep.Of(new MonoGuard(lowestCorrelation: 0))];
        var trim = TreatmentStep.Of(new Trim(PairRoles.Side, -3));

        Assert.Equal(["swap", "trim", "mono-guard"], StepOrder.Added(steps, trim).Select(s => s.Kind.Name), StringComparer.Ordinal);
        Assert.Equal(["trim", "swap"], StepOrder.Moved([steps[0], trim], 0, 1).Select(s => s.Kind.Name), StringComparer.Ordinal);
        Assert.Equal(["swap"], StepOrder.Moved([steps[0], trim], 1, 0).Select(s => s.Kind.Name), StringComparer.Ordinal);
        Assert.Equal(["swap", "trim"], StepOrder.Moved([steps[0], trim], 0, -1).Select(s => s.Kind.Name), StringComparer.Ordinal);
    }
}
