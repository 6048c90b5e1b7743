using Athwart.Catalogue;
using Athwart.Jobs.Cut;
using Athwart.Jobs.Deliver;
using Athwart.Jobs.Render;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.Cut;

public sealed class ChangeCutTests : IDisposable
{
    private readonly SoundCard _card = new();

    [Fact]
    public void ACut_IsMovedSplitJoinedAndRemoved()
    {
        Steps();
        var edited = ChangeCutJob.Edit(_card.Place("steps", "steps 01"), new() { From = TakePlace.AtFrame(40000), FadeIn = TimeSpan.FromMilliseconds(10), FadeCurve = "exponential" }, CancellationToken.None).Cuts[0];
        Assert.Equal((40000, 480, "exponential"), (edited.FromFrame, edited.FadeInFrames, edited.FadeOutCurve));
        var halves = ChangeCutJob.Split(_card.Place("steps", "steps 01"), TakePlace.AtFrame(50000), CutSnap.None, CancellationToken.None).Cuts;
        Assert.Equal([("steps 01", 40000L, 50000L), ("steps 03", 50000, edited.ToFrame)], halves.Select(c => (c.Name, c.FromFrame, c.ToFrame)));
        var joined = ChangeCutJob.Join(_card.Place("steps", "steps 03"), "steps 01", CancellationToken.None).Cuts[0];
        Assert.Equal(("steps 03", 40000L, edited.ToFrame, 480L), (joined.Name, joined.FromFrame, joined.ToFrame, joined.FadeInFrames));
        ChangeCutJob.Remove(_card.Place("steps", "steps 03"), CancellationToken.None);
        Assert.Equal("steps 02", Assert.Single(_card.List().Cuts).Name, StringComparer.Ordinal);
    }

    // The first shape is kept as no word at all, whoever names it.
    [Fact]
    public void TheUsualShapeOfAFade_IsKeptAsTheUsualOne_WhoeverSetsIt()
    {
        Steps();
        var place = _card.Place("steps", "steps 01");
        ChangeCutJob.Edit(place, new() { FadeCurve = "linear" }, CancellationToken.None);
        ChangeCutJob.Edit(place, new() { FadeCurve = FadeWords.Default }, CancellationToken.None);
        Assert.Equal(("", ""), (Stored("steps 01").FadeInCurve, Stored("steps 01").FadeOutCurve));
    }

    [Fact]
    public void AnEditedLoop_KeepsTheRulesOfLoops()
    {
        _card.Add("weir", 12, 0.05, [], format: SampleFormat.Int24).TakeIn();
        ChangeCutJob.Loop(_card.Place("weir", "weir loop"), new() { CrossfadeSeconds = 0.5 }, CancellationToken.None);
        var loop = Stored("weir loop", "weir");
        Assert.Contains("cannot fade", Refusal(loop with { FadeOut = new(480) }), StringComparison.Ordinal);
        Assert.Contains("no room", Refusal(loop with { Range = FrameRange.FromFrames(100, loop.Range.To.Value) }), StringComparison.Ordinal);
        Assert.Contains("inside take", Refusal(loop with { Range = FrameRange.FromFrames(loop.Range.From.Value, 12 * SoundCard.Rate + 1) }), StringComparison.Ordinal);
        Assert.Contains("overlap", Refusal(loop with { Loop = null, FadeOut = new(loop.Range.Length.Value + 1) }), StringComparison.Ordinal);
        EditEffectJob.Run(new(_card.Library, loop, loop with { Notes = "moved" }));
        Assert.Equal("moved", Stored("weir loop", "weir").Notes);

        string Refusal(Effect after) => Assert.Throws<JobException>(() => EditEffectJob.Run(new(_card.Library, loop, after))).Message;
    }

    [Fact]
    public void AProposal_DoesNotTakeThePlaceOfACutOfItsName()
    {
        _card.Add("steps", 4, 0.001, [(1, 0.3, 0.2), (2, 0.3, 0.3)]).TakeIn();
        _card.Find();
        _card.Approve(1);
        var before = Stored("steps 01");
        var refused = Assert.Throws<JobException>(() => ApproveCutsJob.Run(new() { Library = _card.Library, Session = SoundCard.Session, Numbers = [1], Name = "steps 01" }, CancellationToken.None));
        Assert.Equal(JobErrorKind.Refused, refused.Kind);
        Assert.Contains("cut remove", refused.Message, StringComparison.Ordinal);
        Assert.Equal(before.Range, Stored("steps 01").Range);
        _card.Approve(1);
        Assert.Equal(2, _card.List().Cuts.Count);
    }

    [Fact]
    public void WhatDoesNotFitTheTake_IsRefused()
    {
        Steps();
        var place = _card.Place("steps", "steps 01");
        Assert.Throws<JobException>(() => ChangeCutJob.Edit(place, new() { To = TakePlace.AtSeconds(99) }, CancellationToken.None));
        Assert.Throws<JobException>(() => ChangeCutJob.Edit(place, new() { FadeIn = TimeSpan.FromSeconds(9) }, CancellationToken.None));
        Assert.Throws<JobException>(() => ChangeCutJob.Edit(place, new() { FadeCurve = "bent" }, CancellationToken.None));
        Assert.Throws<JobException>(() => ChangeCutJob.Split(place, TakePlace.Start, CutSnap.None, CancellationToken.None));
        Assert.Throws<JobException>(() => ChangeCutJob.Join(place, "steps 01", CancellationToken.None));
        Assert.Throws<JobException>(() => ChangeCutJob.Remove(_card.Place("steps", "nothing"), CancellationToken.None));
    }

    [Fact]
    public void ALoop_MeetsAtItsEnds_AndTheFileSaysThatItIsOne()
    {
        _card.Add("weir", 12, 0.05, [], format: SampleFormat.Int24).TakeIn();
        var (cut, proof) = ChangeCutJob.Loop(_card.Place("weir", "weir loop"), new() { CrossfadeSeconds = 0.5 }, CancellationToken.None);
        var loop = Assert.Single(cut.Cuts);
        Assert.True(proof.Holds, proof.ToString());
        Assert.Equal(24000, loop.CrossfadeFrames);
        var folder = Path.Combine(_card.Root, "delivered");
        new DeliverJob().Run(new() { Library = _card.Library, Session = SoundCard.Session, Folder = folder, Effects = ["weir loop"] }, null, CancellationToken.None);
        var stereo = Directory.GetFiles(folder, "*.wav", SearchOption.AllDirectories).Select(RecordingFile.Open).Single(f => f.Sampler is not null);
        using (stereo)
        {
            var played = Assert.Single(stereo.Sampler!.Loops);
            Assert.Equal((0u, (uint)(loop.ToFrame - loop.FromFrame - 1)), (played.FirstFrame, played.LastFrame));
            Assert.Equal(loop.ToFrame - loop.FromFrame, stereo.FrameCount);
            Assert.Contains(stereo.Markers, m => m.Label == "loop" && m.Length == stereo.FrameCount);
        }

        var recipe = Directory.GetFiles(folder, "*.recipe.json", SearchOption.AllDirectories).Select(RecipeFiles.Read).First(r => r.Output.Kind == RenderKind.Stereo);
        Assert.Equal((2, 24000L), (recipe.Version, recipe.Source.Loop!.CrossfadeFrames));
    }

    [Fact]
    public void ALoopWithoutRoomForItsCrossfade_IsRefused()
    {
        _card.Add("weir", 3, 0.05, []).TakeIn();
        Assert.Throws<JobException>(() => ChangeCutJob.Loop(_card.Place("weir", "loop"), new() { From = TakePlace.Start, To = TakePlace.AtSeconds(2), Exactly = true }, CancellationToken.None));
        Assert.Throws<JobException>(() => ChangeCutJob.Loop(_card.Place("weir", "loop"), new() { LeastSeconds = 5 }, CancellationToken.None));
    }

    [Fact]
    public void CutsOfOneSound_AreOneFamily()
    {
        _card.Add("steps", 6, 0.0005, [(1, 0.2, 0.2), (2, 0.2, 0.05), (3, 0.2, 0.3), (4, 1.5, 0.2)]).TakeIn();
        _card.Find();
        _card.Approve();
        var families = AlikeJob.Run(_card.Library, SoundCard.Session, AlikeJob.UsualDecibels, CancellationToken.None);
        Assert.Equal([1, 1, 1, 2], families.Select(f => f.Family));
    }

    public void Dispose() => _card.Dispose();

    private Effect Stored(string name, string take = "steps")
    {
        using var library = Library.Open(_card.Library, LibraryAccess.Read);
        var takes = library.Takes(library.RequireSession(SoundCard.Session).Id);
        return library.Effects(takes.Single(t => t.Name == take).Id).Single(e => e.Name == name);
    }

    private void Steps()
    {
        _card.Add("steps", 4, 0.001, [(1, 0.3, 0.2), (2, 0.3, 0.3)]).TakeIn();
        _card.Find();
        _card.Approve();
    }
}
