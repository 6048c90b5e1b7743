using Athwart.Figures;
using Athwart.Jobs.Decode;
using Athwart.Jobs.Explain;
using Athwart.Jobs.Render;
using Athwart.Jobs.Storage;
using Athwart.Recordings;

namespace Athwart.Jobs.Shape.Sounds;

/// <summary>Which sounds are made, and where.</summary>
/// <param name="Folder">The folder; made when it is not there.</param>
/// <param name="Step">One of them by its name; null for all.</param>
/// <param name="Overwrite">Whether files of the same names may be replaced.</param>
public sealed record StepSoundsRequest(string Folder, string? Step, bool Overwrite);

/// <summary>What was made for one step.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Says">What to listen to.</param>
/// <param name="Files">The raw pair, the decode before and after, and the picture.</param>
public sealed record MadeStepSound(string Name, string Says, IReadOnlyList<string> Files);

/// <summary>Makes a short sound before and after each step that treats mid and side apart, and a picture of what the step did.</summary>
/// <remarks>The sounds are made afresh each time and are decoded as any take is, so that what is heard is what the steps do.</remarks>
public static class StepSoundsJob
{
    /// <summary>Makes them.</summary>
    /// <exception cref="JobException">There is no such step, or a file is there already.</exception>
    public static IReadOnlyList<MadeStepSound> Run(StepSoundsRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var wanted = StepSounds.All.Where(s => request.Step is null || string.Equals(s.Name, request.Step, StringComparison.OrdinalIgnoreCase)).ToList();
        if (wanted.Count == 0)
            throw new JobException(JobErrorKind.WrongUse, $"There is no sound for a step '{request.Step}'.", "Name one of: " + string.Join(", ", StepSounds.All.Select(s => s.Name)) + ".");
        foreach (var file in wanted.SelectMany(s => Files(request.Folder, s)))
            WholeFile.RequireFree(file, request.Overwrite);
        Directory.CreateDirectory(request.Folder);
        return wanted.ConvertAll(s => Make(s, request.Folder, cancellation));
    }

    /// <summary>The picture of one, drawn from its sound; the sounds are left in the folder.</summary>
    internal static string Draw(StepSound sound, string folder, CancellationToken cancellation)
    {
        var made = Make(sound, folder, cancellation);
        return File.ReadAllText(made.Files[^1]);
    }

    private static string[] Files(string folder, StepSound sound) =>
        [.. ((string[])["raw.wav", "before.wav", "after.wav"]).Select(e => Path.Combine(folder, $"{sound.Name}.{e}")), Path.Combine(folder, sound.Name + ".svg")];

    private static MadeStepSound Make(StepSound sound, string folder, CancellationToken cancellation)
    {
        var files = Files(folder, sound);
        WriteRaw(sound, files[0]);
        Decode(files[0], files[1], null, cancellation);
        Decode(files[0], files[2], new() { Name = sound.Name, Steps = [sound.Step] }, cancellation);
        WholeFile.Write(files[3], StandaloneFigure.Svg(StepSoundPicture.Draw(sound, Read(files[1]), Read(files[2])), Palette.Light), overwrite: true);
        return new(sound.Name, sound.Says, files);
    }

    private static void WriteRaw(StepSound sound, string path)
    {
        var made = sound.Make();
        var block = new PlanarBlock<float>(sound.IsMono ? 1 : 2, made.Mid.Length) { Length = made.Mid.Length };
        made.Mid.CopyTo(block.Channel(0));
        if (!sound.IsMono)
            made.Side.CopyTo(block.Channel(1));
        using var writer = WaveWriter.Create(path, new() { ChannelCount = block.ChannelCount, SampleRateHertz = ExampleSound.Rate, Format = SampleFormat.Float32, Overwrite = true, Durable = false });
        writer.Write(block);
        writer.Complete();
    }

    private static void Decode(string raw, string target, Treatment? treatment, CancellationToken cancellation)
    {
        var report = DecodeJob.Run(new() { Inputs = [raw], Output = target, SideLevel = Quantities.Decibels.Unity, Treatment = treatment, Word = OutputWord.Floating, Overwrite = true }, cancellation);
        if (report.Takes[0].Error is { } error)
            throw error;
    }

    // Left and right at side level 0 dB are mid and side again.
    private static PairSamples Read(string stereo)
    {
        using var file = RecordingFile.Open(stereo);
        var block = new PlanarBlock<double>(file.ChannelCount, (int)file.FrameCount);
        file.Read(0, block.Capacity, block);
        var (left, right) = (block.Channel(0).ToArray(), block.Channel(1).ToArray());
        return new(file.SampleRateHertz, [.. left.Zip(right, (l, r) => (l + r) / 2)], [.. left.Zip(right, (l, r) => (l - r) / 2)]);
    }
}
