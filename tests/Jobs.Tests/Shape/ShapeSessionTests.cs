using Athwart.Catalogue;
using Athwart.Jobs.Decode;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Render;
using Athwart.Jobs.Shape;
using Athwart.Jobs.Tests.Deliver;
using Athwart.Recordings;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Tests.Shape;

/// <summary>Treatments in a library: kept, applied, delivered, undone.</summary>
public sealed class ShapeSessionTests : IDisposable
{
    private readonly SmallSession _session = new();

    public void Dispose() => _session.Dispose();

    [Fact]
    public void ANamedTreatment_IsDelivered_AndItsRecipeMakesTheSameBytes()
    {
        _session.Add("gate", frames: 30_000);
        _session.TakeIn();
        new TreatmentsJob().Keep(_session.Library, new() { Name = "low", Steps = [TreatmentStep.Of(new LowCut(PairRoles.Both, 200, 12))], Decode = new() { SideLevelDecibels = -5 } });
        _session.Deliver(_session.Request with { Treatment = "LOW", SideLevel = null });

        var recipe = Recipes().Single();
        var read = RecipeFiles.Read(recipe);
        Assert.Equal((2, "low", -5.0, "gate"), (read.Version, read.Treatment.Name, read.Treatment.SideLevelDecibels!.Value, read.Effect!.Name));
        Assert.True(RenderJob.Run(new() { RecipePath = recipe, OutputPath = Path.Combine(_session.Root, "again.wav") }, CancellationToken.None).IsSame);
        Assert.Contains("treated: low (1 step)", read.Output.Metadata.Broadcast!.CodingHistory, StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(_session.Folder, "*midside*.wav"));
    }

    // The cut's own treatment comes before the one named for all, and that before the take's.
    [Fact]
    public void TheTreatmentOfAnEffect_ComesBeforeTheNamedOne_AndThatBeforeTheTakes()
    {
        _session.Add("gate", frames: 30_000).Add("boat", seed: 2, frames: 30_000);
        _session.TakeIn();
        _session.Cut("gate", "slam");
        _session.Cut("boat", "wash");
        var job = new TreatmentsJob();
        job.Keep(_session.Library, Named("for the take", -7));
        job.Keep(_session.Library, Named("for the effect", -8));
        job.Keep(_session.Library, Named("for all", -9));
        ApplyRequest apply = new() { Library = _session.Library, Session = SmallSession.Session };
        Assert.Equal(["boat", "gate"], job.Apply(apply with { Treatment = "for the take" }, CancellationToken.None), StringComparer.Ordinal);
        job.Apply(apply with { Treatment = "for the effect", Effects = ["slam"] }, CancellationToken.None);

        _session.Deliver();
        Assert.Equal(["for the effect", "for the take"], Recipes().Select(r => RecipeFiles.Read(r).Treatment.Name!).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Directory.Delete(_session.Folder, recursive: true);
        _session.Deliver(_session.Request with { Treatment = "for all" });
        Assert.Equal(["for all", "for the effect"], Recipes().Select(r => RecipeFiles.Read(r).Treatment.Name!).Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public void WhatWasApplied_IsUndone_AtOnceForAllTakes()
    {
        _session.Add("gate").Add("boat", seed: 2);
        _session.TakeIn();
        new TreatmentsJob().Apply(new() { Library = _session.Library, Session = SmallSession.Session, Treatment = "Water" }, CancellationToken.None);
        Assert.Equal(2, Kept(TreatmentScope.Take));
        Assert.Contains("'Water' for 2", TreatmentsJob.Undo(_session.Library)!.What, StringComparison.Ordinal);
        Assert.Equal(0, Kept(TreatmentScope.Take));
        TreatmentsJob.Redo(_session.Library);
        Assert.Equal(2, Kept(TreatmentScope.Take));
        Assert.Single(TreatmentsJob.History(_session.Library));
    }

    [Fact]
    public void AnEditedTreatment_IsSet_Undone_AndRefusedWhenAnotherWindowWasQuicker()
    {
        _session.Add("gate");
        _session.TakeIn();
        using var library = Library.Open(_session.Library, LibraryAccess.Write);
        var take = Jobs.Sessions.SessionLoader.Load(library, SmallSession.Session, CancellationToken.None).Takes[0].Catalogued.Id;
        var (job, place) = (new TreatmentsJob(), (TreatmentScope.Take, take.Value));
        var one = Named("one", -1);
        job.Set(_session.Library, place, (null, one), "first");
        var json = library.GetTreatment(TreatmentScope.Take, take.Value)!.Json;

        job.Set(_session.Library, place, (json, one with { Name = "two" }), "second");
        Assert.Equal(JobErrorKind.Refused, Assert.Throws<JobException>(() => job.Set(_session.Library, place, (json, null), "third")).Kind);
        Assert.Equal("two", TreatmentShelf.OfTake(library, take)!.Name);
        Assert.Equal("second", TreatmentsJob.Undo(_session.Library)!.What);
        Assert.Equal(json, library.GetTreatment(TreatmentScope.Take, take.Value)!.Json);
        // Nothing left is no treatment.
        job.Set(_session.Library, place, (json, one with { Steps = [], Decode = null }), "empty");
        Assert.Null(library.GetTreatment(TreatmentScope.Take, take.Value));
    }

    // Issue 5, section 8: a treatment for another rig is named and refused.
    [Fact]
    public void ATreatmentMadeForAnotherRig_IsRefused()
    {
        _session.Add("gate");
        _session.TakeIn();
        new TreatmentsJob().Keep(_session.Library, Named("lock rig only", -3) with { Rig = "lock rig" });
        var error = Assert.Throws<JobException>(() => _session.Deliver(_session.Request with { Treatment = "lock rig only" }));
        Assert.Contains("lock rig", error.Message, StringComparison.Ordinal);
        error = Assert.Throws<JobException>(() => new TreatmentsJob().Apply(new() { Library = _session.Library, Session = SmallSession.Session, Treatment = "lock rig only" }, CancellationToken.None));
        Assert.Equal(JobErrorKind.Refused, error.Kind);
    }

    // A side made up lives in the side alone, and is never delivered as a raw pair.
    [Fact]
    public void AMonoTakeMadeWide_IsDeliveredInStereo_SaidToBeMadeUp_WithoutARawPair()
    {
        _session.Add("gate", channels: 1, frames: 30_000);
        _session.TakeIn();
        _session.Deliver(_session.Request with { Treatment = "Mono made wide" });
        Assert.Empty(Directory.GetFiles(_session.Folder, "*midside*.wav"));
        var stereo = Assert.Single(Directory.GetFiles(_session.Folder, "*stereo*.wav"));
        int[][] steps = Render.TestTakes.Steps(stereo), raw = Render.TestTakes.Steps(Path.Combine(_session.Card, "gate.wav"));
        Assert.NotEqual(steps[0], steps[1]);
        Assert.Equal(raw[0].Select(m => 2 * m), steps[0].Zip(steps[1], (l, r) => l + r));
        using (var file = RecordingFile.Open(stereo))
        {
            Assert.All(
                [file.Broadcast!.Description, file.Broadcast.CodingHistory, file.Production!.Note, file.Info.Single(t => t.Id == "ICMT").Text],
                text => Assert.Contains(MadeUpSide.Label, text, StringComparison.Ordinal));
        }

        Assert.Contains(MadeUpSide.Label, RecipeFiles.Read(Path.ChangeExtension(stereo, ".recipe.json")).Output.Metadata.Broadcast!.Description, StringComparison.Ordinal);
        Assert.Contains(MadeUpSide.Label, File.ReadAllText(Path.Combine(_session.Folder, "report.html")), StringComparison.Ordinal);
        Assert.Contains("\"sideMadeUp\": true", File.ReadAllText(Path.Combine(_session.Folder, "manifest.json")), StringComparison.Ordinal);
        using (var mono = RecordingFile.Open(Assert.Single(Directory.GetFiles(_session.Folder, "*mono*.wav"))))
            Assert.DoesNotContain(MadeUpSide.Label, mono.Broadcast!.Description, StringComparison.Ordinal);
        using var library = Library.Open(_session.Library, LibraryAccess.Read);
        Assert.True(Assert.Single(Assert.Single(library.Deliveries()).Effects).SideMadeUp);
    }

    [Fact]
    public void ADecodeWithAMadeUpSide_SaysSoInItsFile()
    {
        _session.Add("gate", channels: 1, frames: 30_000);
        var output = Path.Combine(_session.Root, "wide.wav");
        DecodeJob.Run(new() { Inputs = [Path.Combine(_session.Card, "gate.wav")], Output = output, Treatment = TreatmentShelf.Find(null, "Mono made wide") }, CancellationToken.None);
        using var file = RecordingFile.Open(output);
        Assert.Contains(MadeUpSide.Label, file.Broadcast!.Description, StringComparison.Ordinal);
        Assert.Contains(MadeUpSide.Label, file.Broadcast.CodingHistory, StringComparison.Ordinal);
    }

    [Fact]
    public void AcceptedProposals_PutTheTakeRightBeforeAnyTreatment()
    {
        _session.Add("gate", frames: 48_000);
        _session.TakeIn();
        AttachRig(inverted: true, offset: 2);
        ProposeRequest propose = new() { Library = _session.Library, Session = SmallSession.Session, Take = "gate" };
        var proposed = new ProposeJob().Run(propose, CancellationToken.None);
        Assert.Null(proposed.Accepted);
        Assert.Equal([new Invert(PairRoles.Side), new Trim(PairRoles.Side, -2)], proposed.Proposals.Take(2).Select(p => p.Step.Settings));

        new ProposeJob().Run(propose with { Accept = [1] }, CancellationToken.None);
        _session.Deliver(_session.Request with { Treatment = "Water" });
        var steps = RecipeFiles.Read(Recipes().Single()).Treatment.Steps!;
        Assert.Equal(["invert", "low-cut"], steps.Take(2).Select(s => s.Kind.Name), StringComparer.Ordinal);
        Assert.Throws<JobException>(() => new ProposeJob().Run(propose with { Accept = [99] }, CancellationToken.None));
        Assert.Contains("accept 1", TreatmentsJob.Undo(_session.Library)!.What, StringComparison.Ordinal);
        Assert.Equal(0, Kept(TreatmentScope.Correction));
    }

    private static Treatment Named(string name, double level) => new() { Name = name, Decode = new() { SideLevelDecibels = level } };

    private string[] Recipes() => [.. Directory.GetFiles(_session.Folder, "*stereo*.recipe.json").Order(StringComparer.Ordinal)];

    private int Kept(TreatmentScope scope)
    {
        using var library = Library.Open(_session.Library, LibraryAccess.Read);
        return library.Treatments(scope).Count;
    }

    private void AttachRig(bool inverted, double offset)
    {
        using var library = Library.Open(_session.Library, LibraryAccess.Write);
        NumberDocument unknown = new(null, null, "not measured");
        NoiseDocument noise = new(unknown, unknown, null, unknown, []);
        RigProfileDocument rig = new()
        {
            AthwartRig = 1,
            Program = "test",
            Rig = "lock rig",
            Take = "line-up",
            SampleRateHertz = 48000,
            SideInverted = inverted,
            MidPattern = 0.5,
            GainOffsetDecibels = new(offset, 0.1, null),
            DelayFrames = unknown,
            SpacingForwardMetres = unknown,
            SpacingLeftMetres = unknown,
            SideAngleDegrees = unknown,
            MeasuredMidPattern = unknown,
            Response = [],
            MidNoise = noise,
            SideNoise = noise,
            Assumptions = [],
        };
        RigProfile profile = new() { Rig = "lock rig", Measured = new(2026, 5, 14), Version = 1, Json = System.Text.Json.JsonSerializer.Serialize(rig, LineUpJson.Default.RigProfileDocument) };
        library.AddRigProfile(profile);
        library.AttachRigProfile(library.RequireSession(SmallSession.Session).Id, profile.Id);
    }
}
