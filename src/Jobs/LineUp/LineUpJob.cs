using System.Globalization;
using System.Text.Json;
using Athwart.Catalogue;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Sessions;
using Athwart.Metering.LineUp;
using Athwart.Recordings;

namespace Athwart.Jobs.LineUp;

/// <summary>Measures a rig from a line-up take, loose or in a library, and keeps its profile.</summary>
public static class LineUpJob
{
    private const int MostSeconds = 600;
    private const int BlockFrames = 1 << 16;

    /// <summary>Runs.</summary>
    /// <exception cref="JobException">The take has not two channels or is longer than ten minutes, or a profile is to be kept without a library.</exception>
    public static LineUpReport Run(LineUpRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var pattern = request.MidPattern is { } text ? request.Kit.PatternOf(text) : request.Kit.MidPattern ?? request.Settings.MidPattern;
        request = request with { Settings = request.Settings with { MidPattern = pattern } };
        return request.Library is null ? Loose(request, cancellation) : InLibrary(request, cancellation);
    }

    private static LineUpReport Loose(LineUpRequest request, CancellationToken cancellation)
    {
        if (request.Rig is not null)
            throw new JobException(JobErrorKind.WrongUse, $"The profile of '{request.Rig}' needs a library to be kept in.", "Name the take by --library, --session and --take, or leave --rig out.");
        var assembly = TakeAssembler.Assemble(RecordingPaths.Find([request.Path ?? ""]), cancellation);
        if (assembly.Refused.Count > 0)
            throw assembly.Refused[0].Error;
        if (assembly.Takes.Count != 1)
            throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"'{request.Path}' holds {assembly.Takes.Count} takes; a line-up is one."), "Name one recording.");
        var take = assembly.Takes[0];
        return Measure(request, take, RoleReader.Decide(take.Tracks, take.ChannelCount, RoleSettings.None, RoleSettings.None), cancellation);
    }

    private static LineUpReport InLibrary(LineUpRequest request, CancellationToken cancellation)
    {
        using var library = Library.Open(request.Library!, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session ?? "", cancellation);
        var take = SessionLoader.Require(session, request.Take ?? "");
        var report = Measure(request, take.Description with { Name = take.Name }, take.Roles, cancellation);
        return request.Rig is null ? report : Keep(library, session.Session, request.Rig, report);
    }

    private static LineUpReport Keep(Library library, Session session, string rig, LineUpReport report)
    {
        if (!report.Result.GainOffset.IsKnown || !report.Result.SideInverted.IsKnown)
            return report with { Changes = ["The profile was not kept: roles, polarity or gain offset could not be told."] };
        var before = library.RigProfiles(rig).LastOrDefault(p => p.Measured <= session.Date);
        var document = RigProfileDocument.From(report, rig, session);
        var profile = new RigProfile { Rig = rig, Measured = session.Date, Version = RigProfileDocument.CurrentVersion, Json = JsonSerializer.Serialize(document, LineUpJson.Compact.RigProfileDocument) };
        library.Transaction(() =>
        {
            library.AddRigProfile(profile);
            library.AttachRigProfile(session.Id, profile.Id);
        });
        return report with { Rig = rig, Changes = before is null ? ["This is the first profile of the rig."] : RigComparison.Changes(LineUpProfiles.Read(before), document) };
    }

    private static LineUpReport Measure(LineUpRequest request, TakeDescription description, RoleAssignment roles, CancellationToken cancellation)
    {
        if (roles.SideChannel is not { } side)
            throw new JobException(JobErrorKind.WrongUse, $"'{description.Name}' has one channel; a line-up needs mid and side.", "Name a recording of both.");
        if (description.FrameCount > (long)MostSeconds * description.SampleRateHertz)
            throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"'{description.Name}' is {description.FrameCount / description.SampleRateHertz} s long; a line-up is at most {MostSeconds} s."), "Cut the line-up out, or name the right take.");
        var (first, second) = (Math.Min(roles.MidChannel, side), Math.Max(roles.MidChannel, side));
        using var take = description.Open();
        var (a, b) = Read(take, first, second, cancellation);
        var result = LineUpAnalysis.Measure(a, b, take.SampleRateHertz, request.Settings);
        var report = new LineUpReport
        {
            Take = description.Name,
            MidChannel = 1 + (result.FirstIsMid.Answer ? first : second),
            SideChannel = 1 + (result.FirstIsMid.Answer ? second : first),
            Result = result,
            SpeedOfSound = request.Settings.SpeedOfSound,
        };
        var (midScale, sideScale) = request.Kit.Scales();
        var (midFull, sideFull) = (request.MidFullScale ?? midScale?.SoundDecibels, request.SideFullScale ?? sideScale?.SoundDecibels);
        return report with
        {
            MidFullScale = midFull,
            SideFullScale = sideFull,
            MidNoiseSoundLevel = Level(report.MidNoise, midFull),
            SideNoiseSoundLevel = Level(report.SideNoise, sideFull),
            MidInputNoise = Level(report.MidNoise, midScale?.InputDecibelsU),
            SideInputNoise = Level(report.SideNoise, sideScale?.InputDecibelsU),
        };
    }

    // 0 dBFS is a full-scale sine's peak: its root mean square is 3.01 dB below, and levels of sound and voltage are of root mean squares.
    private static double? Level(ChannelNoiseMeasure noise, double? fullScale) =>
        fullScale is { } level && noise.WeightedLevel.IsKnown ? level + noise.WeightedLevel.Value + (10 * Math.Log10(2)) : null;

    private static (float[] First, float[] Second) Read(Take take, int first, int second, CancellationToken cancellation)
    {
        var (a, b) = (new float[take.FrameCount], new float[take.FrameCount]);
        var block = new PlanarBlock<float>(take.ChannelCount, BlockFrames);
        for (var at = 0; at < a.Length;)
        {
            cancellation.ThrowIfCancellationRequested();
            var read = take.Read(at, Math.Min(BlockFrames, a.Length - at), block);
            if (read == 0)
                break;
            block.Channel(first).CopyTo(a.AsSpan(at));
            block.Channel(second).CopyTo(b.AsSpan(at));
            at += read;
        }

        return (a, b);
    }
}
