using Athwart.Catalogue;
using Athwart.Desk.Work;
using Athwart.Jobs.Kits;
using Athwart.Jobs.Pages;
using Athwart.Jobs.PlanRig;

namespace Athwart.Desk.Documents;

/// <summary>What the desk hands out beside its pages: colours, the kit as a file, the field sheet, delivered files.</summary>
internal static class DeskDocuments
{
    public static void Map(WebApplication app)
    {
        app.MapGet("/desk/colours.css", static context => Text(context, "text/css", PageTheme.Css));
        app.MapGet("/kit/{name}", Kit);
        app.MapGet("/plan/sheet", Sheet);
        app.MapGet("/deliveries/{id}/files/{**path}", Delivered);
        app.MapGet("/desk/here", static context => Text(context, "text/plain", Environment.ProcessId.ToString(System.Globalization.CultureInfo.InvariantCulture)));
    }

    private static Task Kit(HttpContext context)
    {
        var name = (string)context.Request.RouteValues["name"]!;
        var kit = context.RequestServices.GetRequiredService<OpenLibrary>().Read(KitStore.Load, null!);
        if (kit is null || KitExportJob.Text(kit, name) is not { } text)
            return NotFound(context);
        context.Response.Headers.ContentDisposition = $"attachment; filename=\"{name}\"";
        return Text(context, name.EndsWith(".json", StringComparison.Ordinal) ? "application/json" : "text/csv", text);
    }

    private static Task Sheet(HttpContext context)
    {
        try
        {
            var form = PlanForm.From(context.Request.Query);
            var plan = PlanRigJob.Run(form.Request(context.RequestServices.GetRequiredService<OpenLibrary>()));
            return Document(context, PlanRigJob.Sheet(plan));
        }
        catch (Athwart.Jobs.JobException e)
        {
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
            return Text(context, "text/plain", e.Message);
        }
    }

    // By the manifest alone: what the delivery does not list is not there, whatever the path says.
    private static async Task Delivered(HttpContext context)
    {
        var (id, path) = ((string)context.Request.RouteValues["id"]!, (string?)context.Request.RouteValues["path"] ?? "");
        var delivery = context.RequestServices.GetRequiredService<OpenLibrary>().Read(l => l.Deliveries().FirstOrDefault(d => string.Equals(d.Id.Value, id, StringComparison.Ordinal)), null);
        if (delivery is null || DeliveredFile(delivery, path) is not { } file)
            await NotFound(context);
        else if (path.EndsWith(".html", StringComparison.Ordinal))
            await Document(context, await File.ReadAllTextAsync(file, context.RequestAborted));
        else
            await Results.File(file, TypeOf(path), enableRangeProcessing: true).ExecuteAsync(context);
    }

    internal static string? DeliveredFile(Delivery delivery, string path)
    {
        var isListed = path is Jobs.Deliver.DeliverJob.ReportFileName || delivery.Effects.SelectMany(e => e.Files).Any(f => string.Equals(f.Path, path, StringComparison.Ordinal));
        var full = Path.GetFullPath(Path.Combine(delivery.Folder, path));
        return isListed && full.StartsWith(delivery.Folder + Path.DirectorySeparatorChar, StringComparison.Ordinal) && new FileInfo(full) is { Exists: true, LinkTarget: null } ? full : null;
    }

    private static string TypeOf(string path) => Path.GetExtension(path) switch
    {
        ".wav" => "audio/wav",
        ".json" => "application/json",
        ".csv" => "text/csv",
        _ => "application/octet-stream",
    };

    private static Task Document(HttpContext context, string html)
    {
        context.Response.Headers.ContentSecurityPolicy = DocumentPolicy.For(html);
        return Text(context, "text/html", html);
    }

    private static Task Text(HttpContext context, string type, string text)
    {
        context.Response.ContentType = type + "; charset=utf-8";
        context.Response.Headers.CacheControl = "no-cache";
        return context.Response.WriteAsync(text, context.RequestAborted);
    }

    private static Task NotFound(HttpContext context)
    {
        context.Response.StatusCode = StatusCodes.Status404NotFound;
        return Text(context, "text/plain", "There is no such file.");
    }
}
