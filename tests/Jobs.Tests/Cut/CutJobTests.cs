using Athwart.Jobs.Cut;
using Athwart.Jobs.Tests.Deliver;

namespace Athwart.Jobs.Tests.Cut;

public sealed class CutJobTests : IDisposable
{
    private readonly SmallSession _session = new();

    [Fact]
    public void ACutOutsideTheTake_IsRefused_WithTheTakesLength()
    {
        _session.Add("gate").TakeIn();
        foreach (var (from, to) in new[] { (0L, 9601L), (9600, 9600), (500, 500), (600, 500), (9600, 20000) })
        {
            var refused = Assert.Throws<JobException>(() => _session.Cut("gate", "clang", from: TakePlace.AtFrame(from), to: TakePlace.AtFrame(to)));
            Assert.Equal(JobErrorKind.WrongUse, refused.Kind);
            Assert.Contains("0.200 s", refused.Message, StringComparison.Ordinal);
        }

        Assert.Equal(9600, Assert.Single(_session.Cut("gate", "all", from: TakePlace.AtFrame(0), to: TakePlace.AtFrame(9600)).Effects).Range.To.Value);
    }

    [Fact]
    public void FadesLongerThanTheCut_AreRefused()
    {
        _session.Add("gate").TakeIn();
        Assert.Contains("fades", Assert.Throws<JobException>(() => _session.Cut("gate", "clang", fadeSeconds: 0.21)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MarkersOfATakeWithoutAny_AreRefused()
    {
        _session.Add("gate").TakeIn();
        Assert.Contains("no markers", Assert.Throws<JobException>(() => _session.Cut("gate", source: CutSource.Markers)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AMarkerWithoutLength_RunsToTheNext_AndLabelsThatRepeatAreNumbered()
    {
        _session.Add("gate", markers: [new(100, 0, "step", ""), new(4000, 1000, "step", ""), new(6000, 0, "", "")]).TakeIn();
        var cuts = _session.Cut("gate", source: CutSource.Markers).Effects;
        Assert.Equal([(100L, 4000L), (4000, 5000), (6000, 9600)], cuts.Select(c => (c.Range.From.Value, c.Range.To.Value)));
        Assert.Equal(["step", "step-2", "marker 3"], cuts.Select(c => c.Name), StringComparer.Ordinal);
    }

    [Fact]
    public void ACutOfTheSameName_IsReplaced()
    {
        _session.Add("gate").TakeIn();
        var before = Assert.Single(_session.Cut("gate", "clang", to: TakePlace.AtFrame(100)).Effects);
        var after = Assert.Single(_session.Cut("gate", "clang", to: TakePlace.AtFrame(200)).Effects);
        Assert.Equal(before.Id, after.Id);
        Assert.Equal(1, _session.Deliver().Effects);
    }

    public void Dispose() => _session.Dispose();
}
