using Athwart.Catalogue;
using Athwart.Jobs.Render;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Tests.Deliver;
using Athwart.Jobs.Tests.Render;
using Athwart.Quantities;

namespace Athwart.Jobs.Tests.Sessions;

public sealed class SessionTests : IDisposable
{
    private readonly SmallSession _session = new();

    [Fact]
    public void RolesOfTheSession_AndOfOneTake_ChangeWhatIsDecoded()
    {
        _session.Add("boat").Add("gate", seed: 2).TakeIn();
        Set(null, new(2, 1, null));
        Set("gate", new(1, 2, true));
        var report = _session.Deliver();
        foreach (var (take, mid, side, sign) in new[] { ("boat", 1, 0, 1), ("gate", 0, 1, -1) })
        {
            var raw = TestTakes.Steps(Path.Combine(_session.Card, take + ".wav"));
            var stereo = TestTakes.Steps(Delivered(report, "stereo", take));
            var pair = TestTakes.Steps(Delivered(report, "midside", take));
            var recipe = RecipeFiles.Read(Delivered(report, "recipe", take));
            Assert.Equal(raw[mid], pair[0]);
            Assert.Equal(raw[mid], stereo[0].Zip(stereo[1], (l, r) => (l + r) / 2));
            for (var n = 0; n < raw[0].Length; n++)
                Assert.InRange(((stereo[0][n] - stereo[1][n]) / 2) - (sign * recipe.Treatment.SideGain * raw[side][n]), -1.5, 1.5);
        }
    }

    [Fact]
    public void TakesWhoseMidCameInOnChannel2_AreToldInTheList_AsTheyAreSet()
    {
        _session.Add("boat").Add("gate", seed: 2).TakeIn();
        ListJob.Session(_session.Library, SmallSession.Session, CancellationToken.None);
        Assert.Equal([false, false], Swapped());
        Set("gate", new(2, 1, null));
        Assert.Equal([false, true], Swapped());
        Set(null, new(2, 1, null));
        Assert.Equal([true, true], Swapped());
        Set("boat", new(1, 2, null));
        Assert.Equal([false, true], Swapped());

        IEnumerable<bool> Swapped()
        {
            using var library = Library.Open(_session.Library, LibraryAccess.Read);
            return [.. library.Summaries(library.RequireSession(SmallSession.Session).Id).Select(t => t.IsSwapped)];
        }
    }

    [Fact]
    public void AClearedSetting_IsForgotten()
    {
        _session.Add("gate").TakeIn();
        Set("gate", new(2, 1, true));
        var take = Assert.Single(RolesJob.Run(new(_session.Library, SmallSession.Session, "gate", RoleSettings.None, Clear: true), CancellationToken.None).Takes);
        Assert.Equal((0, 1, false), (take.Roles.MidChannel, take.Roles.SideChannel, take.Roles.SideInverted));
    }

    // Found on a walk: the report of a delivery told of a dead mid that had become the side.
    [Fact]
    public void FindingsOfATake_AreForgottenWhenItsChannelsChange_AndOnlyThen()
    {
        _session.Add("gate").Add("boat").TakeIn();
        using (var library = Library.Open(_session.Library, LibraryAccess.Write))
        {
            foreach (var take in ListJob.Session(_session.Library, SmallSession.Session, CancellationToken.None).Takes.Takes)
                library.ReplaceFindings(take.Catalogued.Id, [new() { Kind = "dead-channel", Severity = FindingSeverity.Fault, Message = "made for the test", Role = ChannelRole.Mid }]);
        }

        Set("gate", new(1, 2, null));
        Assert.Equal([1, 1], Counts());
        Set("gate", new(2, 1, null));
        Assert.Equal([1, 0], Counts());
        Set(null, new(null, null, true));
        Assert.Equal([0, 0], Counts());
    }

    // Found when these tests were written: the setting was kept, and the session could not be read any more.
    [Fact]
    public void AChannelThatNoTakeHas_IsNotKept()
    {
        _session.Add("gate").TakeIn();
        Assert.Throws<JobException>(() => Set(null, new(4, null, null)));
        Assert.Equal(0, Assert.Single(ListJob.Session(_session.Library, SmallSession.Session, CancellationToken.None).Takes.Takes).Roles.MidChannel);
    }

    [Fact]
    public void TheSameCardTwice_AddsNothingToTheTakes_NorToTheirCuts()
    {
        _session.Add("gate").Add("boat", seed: 2).TakeIn();
        _session.Cut("gate", "clang");
        var before = Assert.Single(ListJob.Sessions(_session.Library));
        var ids = Ids();
        var again = _session.TakeIn();
        Assert.Equal(0, again.BytesCopied);
        var after = Assert.Single(ListJob.Sessions(_session.Library));
        Assert.Equal((2, 1), (after.Takes, after.Effects));
        Assert.Equal((before.Takes, before.Effects), (after.Takes, after.Effects));
        Assert.Equal(ids, Ids());
    }

    [Fact]
    public void ATake_IsFoundByTheStartOfItsName_UnlessSeveralFit()
    {
        _session.Add("gate1").Add("gate2", seed: 2).TakeIn();
        var session = ListJob.Session(_session.Library, "lock", CancellationToken.None).Takes;
        Assert.Equal("gate1", SessionLoader.Require(session, "GATE1").Name);
        Assert.Contains("several", Assert.Throws<JobException>(() => SessionLoader.Require(session, "gate")).Message, StringComparison.Ordinal);
        Assert.Contains("'gate2'", Assert.Throws<JobException>(() => SessionLoader.Require(session, "bell")).Message, StringComparison.Ordinal);
    }

    public void Dispose() => _session.Dispose();

    private static string Delivered(Jobs.Deliver.DeliverReport report, string kind, string effect) =>
        Path.Combine(report.Folder, report.Manifest.Files.Single(f => f.Kind == kind && f.Effect == effect).Path);

    private void Set(string? take, RoleSettings roles) =>
        RolesJob.Run(new(_session.Library, SmallSession.Session, take, roles, Clear: false), CancellationToken.None);

    private List<int> Counts()
    {
        using var library = Library.Open(_session.Library, LibraryAccess.Read);
        return [.. ListJob.Session(_session.Library, SmallSession.Session, CancellationToken.None).Takes.Takes.Select(t => library.Findings(t.Catalogued.Id).Count)];
    }

    private string Ids() => string.Join(' ', ListJob.Session(_session.Library, SmallSession.Session, CancellationToken.None).Takes.Takes.Select(t => t.Catalogued.Id.ToString()));
}
